using StrokeWatch.Machine.Tuning;
using StrokeWatch.Outputs.Book;
using StrokeWatch.Reports.Books;
using StrokeWatch.Reports.Html;
using StrokeWatch.Session;

namespace StrokeWatch.Reports.Records;

/// <summary>Takes the trials of the last tuning session out of a machine book.</summary>
internal sealed class BookTrials
{
    private readonly BookSession session;
    private readonly IReadOnlyList<BookTrial> counted;

    private BookTrials(BookSession session, IReadOnlyList<BookTrial> counted, int leftOut) => (this.session, this.counted, LeftOut) = (session, counted, leftOut);

    /// <summary>Gets the trials that count, in order.</summary>
    public IReadOnlyList<TuningTrial> Trials => [.. counted.Select(trial => SessionAdvisor.Trial(trial)!)];

    /// <summary>Gets the last trial that counts; null where none does.</summary>
    public BookTrial? Last => counted.Count > 0 ? counted[^1] : null;

    /// <summary>Gets how many do not count: something was wrong with the measurement, or it told nothing.</summary>
    public int LeftOut { get; }

    /// <summary>Gets which session they are from, in sentences.</summary>
    public string Words =>
        $"Trials of the tuning session begun {RecordDates.Minute(session.Started)}{(session.Who is { } who ? $" by {who}" : "")}, {State(session)}, from the machine book."
        + (LeftOut > 0 ? $" {Figure.Count(LeftOut)} more {(LeftOut == 1 ? "is" : "are")} left out: something was wrong with the measurement, or it told nothing." : "");

    /// <summary>Finds them; null where no session has a trial.</summary>
    public static BookTrials? Of(BookSummary? book)
    {
        if (book is not { Session: { } session })
        {
            return null;
        }

        List<BookTrial> counted = [.. book.Trials.Where(trial => trial.Counts && SessionAdvisor.Trial(trial) is not null)];
        return new(session, counted, book.Trials.Count - counted.Count);
    }

    private static string State(BookSession session) => session.State switch
    {
        BookSessionState.Done => $"done {(session.Ended is { } ended ? RecordDates.Minute(ended) : "")}".TrimEnd(),
        BookSessionState.Open => "not finished",
        _ => "given up",
    };
}
