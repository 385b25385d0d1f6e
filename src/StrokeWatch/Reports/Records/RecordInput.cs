using StrokeWatch.Assessment.Baselines;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Machine.Tuning;
using StrokeWatch.Pipeline;
using StrokeWatch.Reports.Books;

namespace StrokeWatch.Reports.Records;

/// <summary>All that a record is made of; null or empty where it was not given.</summary>
internal sealed record RecordInput
{
    /// <summary>Gets the feeder.</summary>
    public required FeederDescription Feeder { get; init; }

    /// <summary>Gets the feeder file, as the user named it.</summary>
    public required string FeederFile { get; init; }

    /// <summary>Gets when the record is made.</summary>
    public required DateTimeOffset Now { get; init; }

    /// <summary>Gets who makes it.</summary>
    public string? Who { get; init; }

    /// <summary>Gets the tuning trials, in order of time.</summary>
    public IReadOnlyList<TuningTrial> Trials { get; init; } = [];

    /// <summary>Gets where the trials are from, in a sentence; empty where that needs no saying.</summary>
    public string TrialsFrom { get; init; } = "";

    /// <summary>Gets the last trial's expanded uncertainty (k = 2) in metres.</summary>
    public double? TrialUncertainty { get; init; }

    /// <summary>Gets whether the armature was heard striking in the last trial.</summary>
    public bool? TrialStrike { get; init; }

    /// <summary>Gets the machine book.</summary>
    public BookSummary? Book { get; init; }

    /// <summary>Gets the captures, replayed, in the order given.</summary>
    public IReadOnlyList<ReplayResult> Captures { get; init; } = [];

    /// <summary>Gets what the store holds of the period.</summary>
    public RecordHistory? History { get; init; }

    /// <summary>Gets the baselines.</summary>
    public BaselineHistory Baselines { get; init; } = BaselineHistory.Empty;

    /// <summary>Gets the capture that speaks for the machine: the newest, or the last given where one has no date.</summary>
    public ReplayResult? Final => Captures.Count == 0 ? null : Histories.Newest(Captures) ?? Captures[^1];
}
