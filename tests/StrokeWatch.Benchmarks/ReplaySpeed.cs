using System.Diagnostics;
using System.Globalization;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Csv;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Samples.Wav;

namespace StrokeWatch.Benchmarks;

/// <summary>Times <c>replay</c> as a whole process on a long capture beside the Python yardstick on the same file, and prints the ratio.</summary>
internal static class ReplaySpeed
{
    private const double RateHz = 4000;
    private const double DriveHz = 50;

    /// <summary>Runs with: minutes, the built strokewatch.dll, the yardstick's path (or - for none), and csv or wav.</summary>
    public static int Run(string[] arguments)
    {
        if (arguments.Length < 3)
        {
            Console.Error.WriteLine("usage: replay-speed MINUTES STROKEWATCH.DLL YARDSTICK.PY|- [wav|csv]");
            return 2;
        }

        var minutes = double.Parse(arguments[0], CultureInfo.InvariantCulture);
        var kind = arguments.Length > 3 ? arguments[3] : "wav";
        var folder = Directory.CreateTempSubdirectory("strokewatch-speed").FullName;
        try
        {
            var capture = Path.Combine(folder, "long." + kind);
            Make(capture, kind, minutes * 60);
            var feeder = Path.Combine(folder, "feeder.toml");
            File.WriteAllText(feeder, "name = \"Sand feeder\"\n[drive]\nsupply_hz = 50\nstrokes_per_cycle = 1\n[stroke]\nlow = \"1.4 mm\"\nhigh = \"1.6 mm\"\nlimit = \"1.7 mm\"\n");
            var ours = Best(() => Time("dotnet", [arguments[1], "replay", capture, "--feeder", feeder, "--json", Path.Combine(folder, "out.json")]));
            Print("replay", ours, minutes);
            if (arguments[2] != "-")
            {
                var theirs = Time("/usr/bin/python3", [arguments[2], capture, "--supply-hz", "50"]);
                Print("yardstick", theirs, minutes);
                Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"replay is {theirs.Wall / ours.Wall:0.0} times as fast as the yardstick"));
            }
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }

        return 0;
    }

    private static (double Wall, double Processor, double MiB) Best(Func<(double Wall, double Processor, double MiB)> run) =>
        Enumerable.Range(0, 3).Select(_ => run()).MinBy(time => time.Wall);

    private static void Print(string name, (double Wall, double Processor, double MiB) time, double minutes) => Console.WriteLine(string.Create(
        CultureInfo.InvariantCulture,
        $"{name,-10} {time.Wall,8:0.00} s wall, {time.Processor,8:0.00} s processor, {time.MiB,6:0} MiB, {minutes * 60 / time.Processor,8:0} times real time on one core"));

    private static void Make(string path, string kind, double seconds)
    {
        var random = new Random(3);
        var noise = Enumerable.Range(0, 1 << 16).Select(_ => 0.2 * (random.NextDouble() + random.NextDouble() + random.NextDouble() - 1.5)).ToArray();
        using ICaptureWriter writer = kind == "wav"
            ? new WavCaptureWriter(path, [Axis.X, Axis.Y, Axis.Z], RateHz)
            : new CsvCaptureWriter(path, [Axis.X, Axis.Y, Axis.Z], RateHz);
        var block = new SampleBlock(3, 4000) { RateHz = RateHz };
        var amplitude = Sinusoid.PeakAcceleration(Length.FromMillimetres(1.5), DriveHz);
        for (long first = 0, total = (long)(seconds * RateHz); first < total; first += block.Count)
        {
            var count = (int)Math.Min(block.Capacity, total - first);
            block.StartSeconds = first / RateHz;
            for (var n = 0; n < count; n++)
            {
                var turn = 2 * Math.PI * DriveHz * 1.003 * (first + n) / RateHz;
                var along = amplitude * (Math.Cos(turn) + 0.08 * Math.Cos(2 * turn + 0.3));
                block.Fill(0)[n] = 0.9 * along + noise[random.Next(noise.Length)];
                block.Fill(1)[n] = noise[random.Next(noise.Length)];
                block.Fill(2)[n] = 0.43 * along + Gravity.Standard + noise[random.Next(noise.Length)];
            }

            block.SetCount(count);
            writer.Write(block);
        }
    }

    private static (double Wall, double Processor, double MiB) Time(string program, string[] arguments)
    {
        var watch = Stopwatch.StartNew();
        using var process = Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardOutput = true, RedirectStandardError = true })!;
        var peak = 0L;
        var processor = TimeSpan.Zero;
        var output = process.StandardOutput.ReadToEndAsync();
        var error = process.StandardError.ReadToEndAsync();
        while (!process.WaitForExit(5))
        {
            try
            {
                process.Refresh();
                peak = Math.Max(peak, process.PeakWorkingSet64);
                processor = process.TotalProcessorTime;
            }
            catch (InvalidOperationException)
            {
                break;
            }
        }

        process.WaitForExit();
        Task.WaitAll(output, error);
        if (process.ExitCode > 1)
        {
            throw new InvalidOperationException(error.Result);
        }

        return (watch.Elapsed.TotalSeconds, processor.TotalSeconds, peak / 1048576.0);
    }
}
