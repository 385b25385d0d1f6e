using StrokeWatch.Assessment.Diagnosis.Checks;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Outputs.Book;

namespace StrokeWatch.Session;

/// <summary>All that a step sees: the feeder, where the session stands, what was measured and found, and what can be measured with.</summary>
internal sealed record SessionScene
{
    /// <summary>Gets the feeder.</summary>
    public required FeederDescription Feeder { get; init; }

    /// <summary>Gets where the session stands.</summary>
    public required SessionState State { get; init; }

    /// <summary>Gets the session's trials in order, those that do not count among them.</summary>
    public IReadOnlyList<BookTrial> Trials { get; init; } = [];

    /// <summary>Gets what guided checks found in this session, in order.</summary>
    public IReadOnlyList<CheckFound> Found { get; init; } = [];

    /// <summary>Gets the next capture of those that were named; null where there is none.</summary>
    public string? NextCapture { get; init; }

    /// <summary>Gets whether there is a live sensor.</summary>
    public bool Live { get; init; }

    /// <summary>Gets whether it is answered on the page, where no file of this machine can be named.</summary>
    public bool AtPage { get; init; }

    /// <summary>Gets how long a live measurement takes, in seconds.</summary>
    public double Seconds { get; init; } = 20;

    /// <summary>Gets the instant.</summary>
    public required DateTimeOffset Now { get; init; }

    /// <summary>Gets who advises.</summary>
    public required SessionAdvisor Advisor { get; init; }

    /// <summary>Gets the trial that was measured last; null where there is none.</summary>
    public BookTrial? Last => Trials.Count > 0 ? Trials[^1] : null;

    /// <summary>Gets the trials that count.</summary>
    public IReadOnlyList<BookTrial> Counted => [.. Trials.Where(trial => trial.Counts)];

    /// <summary>Gives what the trials say.</summary>
    public SessionAdvice Advise() => Advisor.Advise(Counted);
}
