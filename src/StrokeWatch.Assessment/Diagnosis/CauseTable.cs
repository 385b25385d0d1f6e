using StrokeWatch.Assessment.Diagnosis.Causes;

namespace StrokeWatch.Assessment.Diagnosis;

/// <summary>The table of causes; a new cause is a new file and a line here. What each would do to the symptoms is weighed by Bayes' rule, symptoms taken as independent, and by forests that know how they go together.</summary>
internal static class CauseTable
{
    /// <summary>How likely a machine is healthy before anything is measured; all causes share the rest alike.</summary>
    private const double HealthyPrior = 0.5;

    /// <summary>With fewer symptoms that can be compared with the machine's past there is too little for the forests.</summary>
    private const int FewestCompared = 4;

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
        var patterns = Patterns(evidence, _ => true);
        var plain = Shares(Math.Log(HealthyPrior), [.. patterns.Select(row => (row.Cause, Math.Log((1 - HealthyPrior) / All.Count) + row.Log, row.Pattern))]);

        // The forests have seen captures of running machines only: where little can be compared, the patterns speak alone.
        var few = CauseForests.AsGrown(evidence);
        if (evidence.Compared < FewestCompared || Grown(few, ReferenceEquals(few, evidence) ? patterns : Patterns(few, _ => true)) is not { } grown)
        {
            return plain;
        }

        // More captures than they were grown on they have not seen either: there both count alike.
        return ReferenceEquals(few, evidence)
            ? grown
            : [.. grown.Select(share => share with { Share = (share.Share + plain.First(other => other.Cause == share.Cause).Share) / 2 }).OrderByDescending(share => share.Share)];
    }

    /// <summary>Gives the shares by the forests; null where none are grown.</summary>
    private static IReadOnlyList<CauseShare>? Grown(Evidence evidence, IReadOnlyList<(ICause Cause, double Log, IReadOnlyDictionary<string, Change> Pattern)> patterns)
    {
        var forests = CauseForests.Default;
        var values = forests.Values(evidence, patterns.ToDictionary(row => row.Cause.Id, row => row.Log, StringComparer.Ordinal));
        if (forests.Log(CauseForests.Healthy, values) is not { } own)
        {
            return null;
        }

        // A symptom or a cause that came after the forests were grown is weighed by its pattern alone.
        var beside = Patterns(evidence, symptom => !forests.Knows(symptom.Id)).ToDictionary(row => row.Cause.Id, row => row.Log, StringComparer.Ordinal);
        return Shares(own, [.. patterns.Select(row => (
            row.Cause,
            forests.Log(row.Cause.Id, values) is { } weight ? weight + beside[row.Cause.Id] : own + Math.Log((1 - HealthyPrior) / HealthyPrior / All.Count) + row.Log,
            row.Pattern))]);
    }

    private static IReadOnlyList<CauseShare> Shares(double healthy, IReadOnlyList<(ICause Cause, double Log, IReadOnlyDictionary<string, Change> Pattern)> causes)
    {
        var most = Math.Max(healthy, causes.Max(row => row.Log));
        var total = Math.Exp(healthy - most) + causes.Sum(row => Math.Exp(row.Log - most));
        return
        [
            .. causes.Select(row => new CauseShare(row.Cause, Math.Exp(row.Log - most) / total, row.Pattern))
                .Append(new CauseShare(null, Math.Exp(healthy - most) / total, null)).OrderByDescending(row => row.Share),
        ];
    }

    /// <summary>Gives the logarithm of every cause's likelihood against health by Bayes' rule, and the pattern that fits best.</summary>
    internal static IReadOnlyList<(ICause Cause, double Log, IReadOnlyDictionary<string, Change> Pattern)> Patterns(Evidence evidence, Func<Symptom, bool> which)
    {
        List<(ICause, double, IReadOnlyDictionary<string, Change>)> rows = [];
        foreach (var cause in All)
        {
            var patterns = cause.Patterns.Select(pattern => (Pattern: pattern, Log: Log(pattern, evidence, which))).OrderByDescending(row => row.Log).ToList();
            rows.Add((cause, patterns[0].Log + Math.Log(patterns.Sum(row => Math.Exp(row.Log - patterns[0].Log)) / patterns.Count), patterns[0].Pattern));
        }

        return rows;
    }

    private static double Log(IReadOnlyDictionary<string, Change> pattern, Evidence evidence, Func<Symptom, bool> which) => evidence.Readings.Where(reading => which(reading.Symptom)).Sum(reading =>
        pattern.TryGetValue(reading.Symptom.Id, out var change) ? Likelihood.LogRatio(change, reading.Deviation) : 0);
}
