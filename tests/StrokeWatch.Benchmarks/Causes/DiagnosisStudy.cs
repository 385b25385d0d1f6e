using System.Collections.Concurrent;
using System.Globalization;
using StrokeWatch.Assessment.Diagnosis;
using StrokeWatch.Pipeline;
using StrokeWatch.Sensors.Simulated.Histories;

namespace StrokeWatch.Benchmarks.Causes;

/// <summary>Simulates the lives of random feeders, each with one fault or none, replays their captures and counts which cause the rules name first and second.</summary>
internal static class DiagnosisStudy
{
    private const double FirstRight = 0.90, FirstTwoRight = 0.97, MostFalse = 0.01;
    private const string Healthy = "healthy";

    /// <summary>The cause that each kind of fault of the simulator is.</summary>
    internal static readonly Dictionary<string, string> CauseOf = new(StringComparer.Ordinal)
    {
        ["leaf-cracked-front"] = "leaf-cracked",
        ["leaf-cracked-rear"] = "leaf-cracked",
        ["leaf-missing-front"] = "leaf-cracked",
        ["leaf-missing-rear"] = "leaf-cracked",
        ["supply-low"] = "supply",
        ["supply-high"] = "supply",
        ["phase-cut-wrong"] = "supply",
        ["air-gap-small"] = "air-gap",
        ["air-gap-uneven"] = "air-gap",
        ["sensor-clipped"] = "sensor-fault",
        ["sensor-stuck"] = "sensor-fault",
        ["sensor-dead"] = "sensor-fault",
        ["neighbour-machine"] = "neighbour",
        ["stroke-uneven"] = "uneven-stroke",
        ["drive-dead"] = "drive-out",
        ["drive-out-of-phase"] = "drive-out",
    };

    /// <summary>Runs with: number of histories, first seed, and optionally a file that takes every symptom of every capture.</summary>
    public static int Run(string[] arguments)
    {
        var count = arguments.Length > 0 ? int.Parse(arguments[0], CultureInfo.InvariantCulture) : 2000;
        var first = arguments.Length > 1 ? ulong.Parse(arguments[1], CultureInfo.InvariantCulture) : 1_000_000;
        using var kept = arguments.Length > 2 ? TextWriter.Synchronized(new StreamWriter(arguments[2])) : null;
        kept?.WriteLine($"seed,kind,capture,severity,{string.Join(',', Symptoms.All.Select(symptom => symptom.Id))}");
        var named = new ConcurrentBag<(string Kind, string First, string Second)>();
        Parallel.For(0, count, i =>
        {
            var (kind, evidence) = Simulate(first + (ulong)i, kept);
            var shares = CauseTable.Weigh(evidence);
            named.Add((kind, Name(shares[0]), Name(shares[1])));
        });
        return Tell([.. named]);
    }

    private static string Name(CauseShare share) => share.Cause?.Id ?? Healthy;

    private static (string Kind, Evidence Evidence) Simulate(ulong seed, TextWriter? kept)
    {
        var life = FaultHistory.Draw(seed);
        var history = SimulatedHistory.Run(life);
        for (var i = 0; i < history.Points.Count && kept is not null; i++)
        {
            var values = Symptoms.All.Select(symptom => symptom.Of(history.Points[i].Features)?.ToString("R", CultureInfo.InvariantCulture) ?? "");
            kept.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{seed},{life.Kind ?? Healthy},{i},{life.Captures[i].Severity:0.###},{string.Join(',', values)}"));
        }

        return (life.Kind ?? Healthy, HistoryEvidence.Of(history.Points) ?? throw new InvalidOperationException($"seed {seed}: too few captures"));
    }

    private static int Tell((string Kind, string First, string Second)[] named)
    {
        foreach (var kind in named.GroupBy(row => row.Kind).OrderBy(group => group.Key, StringComparer.Ordinal))
        {
            var right = CauseOf.GetValueOrDefault(kind.Key, kind.Key);
            var answers = kind.GroupBy(row => row.First).OrderByDescending(group => group.Count()).Select(group => $"{group.Key} {group.Count()}");
            Console.WriteLine(string.Create(
                CultureInfo.InvariantCulture,
                $"{kind.Key,-20} {kind.Count(),4}  first {100.0 * kind.Count(row => row.First == right) / kind.Count(),5:0.0} %  of two {100.0 * kind.Count(row => row.First == right || row.Second == right) / kind.Count(),5:0.0} %  {string.Join(", ", answers)}"));
        }

        var faulty = named.Where(row => row.Kind != Healthy).ToArray();
        var healthy = named.Where(row => row.Kind == Healthy).ToArray();
        bool First((string Kind, string First, string Second) row) => row.First == CauseOf.GetValueOrDefault(row.Kind, row.Kind);
        var targets = new Targets();
        targets.AtLeast("right cause first", faulty.Count(First) / (double)faulty.Length, FirstRight, "of all faulty");
        targets.AtLeast("right cause among the first two", faulty.Count(row => First(row) || row.Second == CauseOf.GetValueOrDefault(row.Kind, row.Kind)) / (double)faulty.Length, FirstTwoRight, "of all faulty");
        targets.Below("healthy called faulty", healthy.Count(row => row.First != Healthy) / (double)Math.Max(1, healthy.Length), MostFalse + 1e-9, $"of {healthy.Length} healthy");
        return targets.Status;
    }
}
