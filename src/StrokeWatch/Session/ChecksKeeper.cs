using StrokeWatch.Assessment.Diagnosis.Checks;
using StrokeWatch.Outputs.Book;

namespace StrokeWatch.Session;

/// <summary>Keeps guided checks that are made outside of a tuning session; those of the last day count with them.</summary>
internal sealed class ChecksKeeper(MachineBook book, DateTimeOffset begun) : ISessionKeeper
{
    private static readonly TimeSpan Counts = TimeSpan.FromHours(24);

    /// <inheritdoc/>
    public IReadOnlyList<BookTrial> Trials => [];

    /// <inheritdoc/>
    public IReadOnlyList<CheckFound> Found => [.. book.Checks.Since(begun - Counts).Select(answer => new CheckFound(answer.Check, answer.Answer))];

    /// <inheritdoc/>
    public bool Keep(string step, string answer, SessionState next, SessionTurn turn, DateTimeOffset now)
    {
        if (turn.Check is { } check)
        {
            _ = book.Checks.Add(check);
        }

        if (turn.Entry is { } entry)
        {
            _ = book.Entries.Add(entry);
        }

        return true;
    }
}
