using System.Collections.Concurrent;
using System.Globalization;
using StrokeWatch.Assessment.Diagnosis;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Benchmarks.Forests;
using StrokeWatch.Pipeline;
using StrokeWatch.Sensors.Simulated.Histories;

namespace StrokeWatch.Benchmarks.Causes;

/// <summary>Grows the forests that weigh causes on simulated lives, and sets on lives of their own how sure they may be and how far health leads.</summary>
internal static class CauseTraining
{
    private const int Trees = 120, Leaves = 12, Fewest = 12;
    private const double Step = 0.1;

    /// <summary>A fault that has gone less far than this shows too little to be learnt from.</summary>
    private const double LeastSeverity = 0.2;

    /// <summary>A share of lives is kept for what is set after the forests are grown.</summary>
    private const int KeptOutOf = 5;

    private const double MostFalse = 0.004;

    /// <summary>Runs with: number of lives, first seed, file. Or with <c>lead</c>, number of healthy lives, first seed and the file whose forests are built in: leaves those as they are and sets the lead of health anew.</summary>
    public static int Run(string[] arguments)
    {
        if (arguments is ["lead", var healthy, var from, var standing])
        {
            return LeadAnew(int.Parse(healthy, CultureInfo.InvariantCulture), ulong.Parse(from, CultureInfo.InvariantCulture), standing);
        }

        var count = arguments.Length > 0 ? int.Parse(arguments[0], CultureInfo.InvariantCulture) : 4000;
        var first = arguments.Length > 1 ? ulong.Parse(arguments[1], CultureInfo.InvariantCulture) : 5_000_000;
        var file = arguments.Length > 2 ? arguments[2] : Path.Combine(Path.GetTempPath(), "causes.forest");
        var lives = new ConcurrentBag<(int Life, string Name, float[] Numbers, bool Whole)>();
        Parallel.For(0, count, new() { MaxDegreeOfParallelism = Environment.ProcessorCount }, i =>
        {
            foreach (var row in Rows(first + (ulong)i))
            {
                lives.Add((i, row.Name, row.Numbers, row.Whole));
            }
        });
        var rows = lives.OrderBy(row => row.Life).ToList();
        Console.WriteLine($"{rows.Count} histories of {count} lives");
        string[] classes = [CauseForests.Healthy, .. CauseTable.All.Select(cause => cause.Id)];
        var grown = rows.Where(row => row.Life % KeptOutOf != 0).ToList();
        var forests = classes.Select(name => GrownForest.Grow(
            grown.Select(row => new ForestRow { Label = row.Name == name, Features = row.Numbers }), CauseForests.Names.Count, Trees, Leaves, Step, Fewest)).ToArray();
        var kept = rows.Where(row => row.Life % KeptOutOf == 0 && row.Whole).Select(row => (row.Name, Sums: forests.Select(forest => forest.Sum(row.Numbers)).ToArray())).ToList();
        var temperature = Enumerable.Range(2, 40).Select(tenth => tenth / 10.0).MinBy(t => kept.Sum(row => Surprise(row.Sums, Array.IndexOf(classes, row.Name), t)));
        var lead = Lead([.. kept.Where(row => row.Name == CauseForests.Healthy).Select(row => row.Sums)], temperature);
        var right = kept.Count(row => row.Name != CauseForests.Healthy && Winner(row.Sums, temperature, lead) == Array.IndexOf(classes, row.Name));
        var faulty = kept.Count(row => row.Name != CauseForests.Healthy);
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"temperature {temperature:0.0}, health leads by {lead:0.00}; on {kept.Count} histories kept out right first {100.0 * right / faulty:0.0} %"));
        using var writer = new BinaryWriter(File.Create(file));
        Write(writer, classes, forests, temperature, lead);
        return 0;
    }

    private static IEnumerable<(string Name, float[] Numbers, bool Whole)> Rows(ulong seed)
    {
        var life = FaultHistory.Draw(seed);
        var points = SimulatedHistory.Run(life).Points;
        var random = new Random((int)(seed % int.MaxValue));
        for (var end = 5; end <= points.Count; end++)
        {
            var severity = life.Captures[end - 1].Severity;
            var name = life.Kind is null || severity == 0 ? CauseForests.Healthy : severity < LeastSeverity ? null : DiagnosisStudy.CauseOf.GetValueOrDefault(life.Kind, life.Kind);
            if (name is null)
            {
                continue;
            }

            IReadOnlyList<HistoryPoint> until = [.. points.Take(end)];
            yield return (name, Numbers(until), end == points.Count);

            // The same machine where no stop was recorded, or only one sensor was at hand.
            var (noStop, oneSensor) = (random.NextDouble() < 0.6, random.NextDouble() < 0.6);
            yield return (name, Numbers([.. until.Select(point => point with { Features = Less(point.Features, noStop, oneSensor) })]), false);
        }
    }

    private static CaptureFeatures Less(CaptureFeatures features, bool noStop, bool oneSensor)
    {
        var less = noStop ? features with { NaturalHz = null, DampingRatio = null, TuningRatio = null } : features;
        return oneSensor ? less with { FrontRear = null, FrontRearPhaseDegrees = null } : less;
    }

    private static float[] Numbers(IReadOnlyList<HistoryPoint> points)
    {
        var evidence = HistoryEvidence.Of(points)!;
        var logs = CauseTable.Patterns(evidence, _ => true).ToDictionary(row => row.Cause.Id, row => row.Log, StringComparer.Ordinal);
        return [.. CauseForests.Names.Select(name => (float)CauseForests.Value(name, evidence, logs))];
    }

    private static double Surprise(double[] sums, int right, double temperature)
    {
        var most = sums.Max();
        return Math.Log(sums.Sum(sum => Math.Exp((sum - most) / temperature))) - ((sums[right] - most) / temperature);
    }

    private static int Winner(double[] sums, double temperature, double lead)
    {
        var best = 0;
        for (var i = 1; i < sums.Length; i++)
        {
            best = sums[i] / temperature > (sums[best] / temperature) + (best == 0 ? lead : 0) ? i : best;
        }

        return best;
    }

    /// <summary>Gives by how much health must lead for few healthy machines to be called faulty.</summary>
    private static double Lead(List<double[]> healthy, double temperature)
    {
        var needed = healthy.Select(sums => (sums.Skip(1).Max() - sums[0]) / temperature).OrderDescending().ToList();
        return needed.Count == 0 ? 0 : Math.Max(0, needed[(int)(MostFalse * needed.Count)]);
    }

    /// <summary>What a capture shows changes with what hears strikes and finds transients, and forests stand longer than those: sets by how much health leads on healthy lives as they are heard now.</summary>
    private static int LeadAnew(int count, ulong first, string file)
    {
        var whole = File.ReadAllBytes(file);
        var at = 4;
        for (var left = BitConverter.ToInt32(whole, 0); left > 0; left--)
        {
            at += 1 + whole[at];
        }

        // Behind the names stand the temperature and the lead.
        at += 4;
        var lead = BitConverter.ToSingle(whole, at);
        var behind = new double[count];
        Parallel.For(0, count, i =>
        {
            var shares = CauseTable.Weigh(HistoryEvidence.Of(SimulatedHistory.Run(FaultHistory.Draw(first + (ulong)i, new() { Kind = HistoryWishes.Healthy })).Points)!);
            behind[i] = Math.Log(shares.Where(share => share.Cause is not null).Max(share => share.Share) / shares.Single(share => share.Cause is null).Share);
        });
        Array.Sort(behind);
        Array.Reverse(behind);
        var more = behind[(int)(MostFalse * count)];
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture, $"{behind.Count(value => value >= 0)} of {count} healthy lives are called faulty; the largest fall behind by {string.Join(", ", behind.Take(12).Select(value => $"{value:0.00}"))}; lead {lead:0.000}, now {lead + more:0.000}"));
        BitConverter.TryWriteBytes(whole.AsSpan(at), (float)(lead + more));
        File.WriteAllBytes(file, whole);
        return 0;
    }

    private static void Write(BinaryWriter writer, string[] classes, GrownForest[] forests, double temperature, double lead)
    {
        writer.Write(CauseForests.Names.Count);
        foreach (var name in CauseForests.Names)
        {
            Name(name);
        }

        writer.Write((float)temperature);
        writer.Write((float)lead);
        writer.Write(classes.Length);
        for (var i = 0; i < classes.Length; i++)
        {
            Name(classes[i]);
            forests[i].Write(writer);
        }

        void Name(string name)
        {
            writer.Write((byte)name.Length);
            writer.Write(System.Text.Encoding.ASCII.GetBytes(name));
        }
    }
}
