namespace StrokeWatch.Assessment.Findings;

/// <summary>The evidence of a finding as something to look at: values over the time of the capture, or beside each other by name, and the limits that they are held against.</summary>
public sealed record EvidencePlot
{
    /// <summary>Gets what the values are.</summary>
    public required string Words { get; init; }

    /// <summary>Gets their unit; empty for plain numbers.</summary>
    public required string Unit { get; init; }

    /// <summary>Gets whether they go over time; otherwise each has a name.</summary>
    public required bool OverTime { get; init; }

    /// <summary>Gets the values, over time in order of it; of many windows the smallest and the largest of each part of the time.</summary>
    public required IReadOnlyList<EvidencePoint> Points { get; init; }

    /// <summary>Gets the limits.</summary>
    public IReadOnlyList<EvidenceLimit> Limits { get; init; } = [];
}
