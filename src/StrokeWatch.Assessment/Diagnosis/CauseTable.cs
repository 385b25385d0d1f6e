using StrokeWatch.Assessment.Diagnosis.Causes;

namespace StrokeWatch.Assessment.Diagnosis;

/// <summary>The table of causes; a new cause is a new file and a line here. Bayes' rule over what each would do to the symptoms, the symptoms taken as independent.</summary>
internal static class CauseTable
{
    /// <summary>How likely a machine is healthy before anything is measured; all causes share the rest alike.</summary>
    private const double HealthyPrior = 0.5;

    /// <summary>Gets all causes.</summary>
    public static IReadOnlyList<ICause> All { get; } =
    [
        new LeafCracked(),
        new TrayHeavier(),
        new TrayLighter(),
        new TrayCracked(),
        new TrayRubbing(),
        new ClampLoose(),
        new Supply(),
        new AirGap(),
        new ReverseSide(),
        new LeafFriction(),
        new SensorLoose(),
        new SensorFault(),
        new Neighbour(),
        new StrokeUneven(),
        new DriveOut(),
    ];

    /// <summary>Gives the share of every cause and of health, the likeliest first.</summary>
    public static IReadOnlyList<CauseShare> Weigh(Evidence evidence)
    {
        var rows = new List<(ICause? Cause, double Log, IReadOnlyDictionary<string, Change>? Pattern)> { (null, Math.Log(HealthyPrior), null) };
        foreach (var cause in All)
        {
            var patterns = cause.Patterns.Select(pattern => (Pattern: pattern, Log: Log(pattern, evidence))).OrderByDescending(row => row.Log).ToList();
            var sum = patterns[0].Log + Math.Log(patterns.Sum(row => Math.Exp(row.Log - patterns[0].Log)) / patterns.Count);
            rows.Add((cause, Math.Log((1 - HealthyPrior) / All.Count) + sum, patterns[0].Pattern));
        }

        var most = rows.Max(row => row.Log);
        var total = rows.Sum(row => Math.Exp(row.Log - most));
        return [.. rows.Select(row => new CauseShare(row.Cause, Math.Exp(row.Log - most) / total, row.Pattern)).OrderByDescending(row => row.Share)];
    }

    private static double Log(IReadOnlyDictionary<string, Change> pattern, Evidence evidence) => evidence.Readings.Sum(reading =>
        pattern.TryGetValue(reading.Symptom.Id, out var change) ? Likelihood.LogRatio(change, reading.Deviation) : 0);
}
