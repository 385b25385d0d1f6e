using System.Diagnostics;
using System.Globalization;
using System.Security.Cryptography;

namespace StrokeWatch.Benchmarks.Fuzzing;

/// <summary>One target's run: kept inputs first, then made ones; each is watched for its time, faults are kept as files.</summary>
internal sealed class FuzzRun(string name, IFuzzTarget target, int seed)
{
    private const int MostFaults = 10;
    private const double MostGrowthMiB = 4;
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(30);
    private readonly HashSet<string> faults = new(StringComparer.Ordinal);
    private byte[]? now;
    private long begun;
    private double slowest;

    /// <summary>Gives the folder of inputs that once failed, which are tried before all others.</summary>
    public static string Kept(string target) => Path.Combine(FuzzFiles.Root, "tests", "StrokeWatch.Benchmarks", "Fuzzing", "Kept", target);

    /// <summary>Goes on for so much processor time in s or so many inputs; gives the exit status.</summary>
    public int Go(double seconds, long inputs)
    {
        using var watchdog = new Timer(_ => Bark(), null, Patience, TimeSpan.FromSeconds(1));
        var mutator = new Mutator(target.Corpus, target.Words, target.Longest);
        var (from, taken, tried, bytes) = (ProcessorTime.Own(), 0L, 0L, 0L);
        long? settled = null;
        foreach (var input in target.Corpus.Concat(Directory.Exists(Kept(name)) ? Directory.EnumerateFiles(Kept(name)).Order(StringComparer.Ordinal).Select(File.ReadAllBytes) : []))
        {
            taken += Try(input, new(0)) ? 1 : 0;
        }

        var good = taken;
        while (tried < inputs && ProcessorTime.Own() - from < seconds && faults.Count < MostFaults)
        {
            var random = new Random(HashCode(seed, tried));
            var input = mutator.Make(random);
            taken += Try(input, random) ? 1 : 0;
            (tried, bytes) = (tried + 1, bytes + input.Length);

            // What is made once (tables, pools, code) is made in the first fifth.
            if (settled is null && (tried >= 0.2 * inputs || ProcessorTime.Own() - from >= 0.2 * seconds))
            {
                settled = Held();
            }
        }

        var spent = ProcessorTime.Own() - from;
        var growth = (Held() - (settled ?? 0)) / 1048576.0;
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"{name}: {tried} inputs, {bytes / 1048576.0:0.0} MiB in {spent / 60:0.00} processor-minutes, seed {seed}; {taken - good} taken for good, of {target.Corpus.Count} of the corpus {good}; longest for one {1e3 * slowest:0} ms"));
        var targets = new Targets();
        targets.Below($"{name}, inputs that failed", faults.Count, 1, "kinds");
        targets.Below($"{name}, growth of memory after its first fifth", growth, MostGrowthMiB, "MiB");
        return targets.Status;
    }

    /// <summary>A number that hangs on the seed and the input's own alone, so that one input can be made again.</summary>
    private static int HashCode(int seed, long number) => (int)(((ulong)seed * 0x9E3779B97F4A7C15UL + (ulong)number * 0xD1B54A32D192ED03UL) >> 33);

    private static long Held()
    {
        GC.Collect();
        GC.WaitForPendingFinalizers();
        return GC.GetTotalMemory(forceFullCollection: true);
    }

    private bool Try(byte[] input, Random random)
    {
        Interlocked.Exchange(ref begun, Stopwatch.GetTimestamp());
        Volatile.Write(ref now, input);
        try
        {
            return target.Take(input, random);
        }
        catch (Exception fault)
        {
            // One kind of fault is told once: the same exception from the same place.
            var place = fault.StackTrace?.Split('\n').FirstOrDefault(line => line.Contains("StrokeWatch", StringComparison.Ordinal)) ?? fault.StackTrace;
            if (faults.Add($"{fault.GetType()} {place}"))
            {
                Console.WriteLine($"{name}, seed {seed}: {fault}\nkept as {Keep(input)}");
            }

            return false;
        }
        finally
        {
            Volatile.Write(ref now, null);
            slowest = Math.Max(slowest, Stopwatch.GetElapsedTime(begun).TotalSeconds);
        }
    }

    private string Keep(byte[] input)
    {
        var path = Path.Combine(Path.GetTempPath(), $"fuzz-{name}-{Convert.ToHexStringLower(SHA256.HashData(input))[..12]}.bin");
        File.WriteAllBytes(path, input);
        return path;
    }

    private void Bark()
    {
        if (Volatile.Read(ref now) is { } input && Stopwatch.GetElapsedTime(Interlocked.Read(ref begun)) > Patience)
        {
            Console.WriteLine($"{name}, seed {seed}: an input hangs; kept as {Keep(input)}");
            Environment.Exit(1);
        }
    }
}
