using StrokeWatch.Assessment.Diagnosis.Checks;
using StrokeWatch.Outputs.Book;

namespace StrokeWatch.Session;

/// <summary>Keeps a tuning session in the machine book.</summary>
internal sealed class BookKeeper : ISessionKeeper
{
    private readonly MachineBook book;
    private BookSession session;

    /// <summary>Takes over a session of the book.</summary>
    public BookKeeper(MachineBook book, BookSession session)
    {
        (this.book, this.session) = (book, session);
        Read();
    }

    /// <inheritdoc/>
    public IReadOnlyList<BookTrial> Trials { get; private set; } = [];

    /// <inheritdoc/>
    public IReadOnlyList<CheckFound> Found { get; private set; } = [];

    /// <inheritdoc/>
    public bool Keep(string step, string answer, SessionState next, SessionTurn turn, DateTimeOffset now)
    {
        var kept = book.Sessions.Record(session, new()
        {
            Utc = now,
            Answered = step,
            Answer = answer,
            Step = next.Step,
            Memory = SessionMemory.Write(next),
            Who = next.Who,
            State = turn.Done ? BookSessionState.Done : BookSessionState.Open,
            Trial = turn.Trial,
            LeavesOutLast = turn.LeavesOutLast,
            Check = turn.Check,
            Entry = turn.Entry,
        });
        if (kept is null)
        {
            return false;
        }

        session = kept;
        Read();
        return true;
    }

    private void Read()
    {
        Trials = book.Sessions.Trials(session.Id);
        Found = [.. book.Checks.Since(session.Started).Where(answer => answer.Session == session.Id).Select(answer => new CheckFound(answer.Check, answer.Answer))];
    }
}
