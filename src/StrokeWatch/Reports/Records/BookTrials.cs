using StrokeWatch.Machine.Tuning;
using StrokeWatch.Outputs.Book;
using StrokeWatch.Reports.Books;
using StrokeWatch.Session;

namespace StrokeWatch.Reports.Records;

/// <summary>Takes the trials of a tuning session out of a machine book.</summary>
internal static class BookTrials
{
    /// <summary>Gives the trials in order; one whose stack cannot be read is left out.</summary>
    public static IReadOnlyList<TuningTrial> Of(BookSummary book) => [.. book.Trials.Select(Trial).OfType<TuningTrial>()];

    /// <summary>Says which session they are from.</summary>
    public static string Words(BookSummary book) => book.Session is { } session
        ? $"Trials of the tuning session begun {RecordDates.Minute(session.Started)}{(session.Who is { } who ? $" by {who}" : "")}, {State(session)}, from the machine book."
        : "";

    private static string State(BookSession session) => session.State switch
    {
        BookSessionState.Done => $"done {(session.Ended is { } ended ? RecordDates.Minute(ended) : "")}".TrimEnd(),
        BookSessionState.Open => "not finished",
        _ => "given up",
    };

    private static TuningTrial? Trial(BookTrial trial) => StackText.Read(trial.Rear, out _) is { } rear
        ? new()
        {
            Rear = rear,
            StrokeMetres = trial.StrokeMetres,
            StrokeSpread = trial.StrokeSpread ?? new TuningTrial { Rear = rear }.StrokeSpread,
            NaturalHz = trial.NaturalHz,
            NaturalSpreadHz = trial.NaturalUncertaintyHz / 2,
            DampingRatio = trial.DampingRatio,
            VoltageRatio = trial.VoltageRatio ?? 1,
            TrayChangeKilograms = trial.TrayChangeKilograms ?? 0,
        }
        : null;
}
