using StrokeWatch.Assessment.Baselines;

namespace StrokeWatch.Assessment.Watching;

/// <summary>What a stretch of running has led to.</summary>
public sealed record WatchOutcome
{
    /// <summary>Gets a baseline that has just been learned, not numbered yet; null where none was.</summary>
    public Baseline? Learned { get; init; }

    /// <summary>Gets the findings raised and cleared, in order.</summary>
    public IReadOnlyList<FindingTransition> Findings { get; init; } = [];

    /// <summary>Gets what an operator is told where the alarm of a changed machine is raised or cleared; null where it stays as it is.</summary>
    public string? AlarmWords { get; init; }

    /// <summary>Gets whether the alarm was raised; false where it was cleared, or stays.</summary>
    public bool AlarmRaised { get; init; }
}
