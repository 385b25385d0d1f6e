using StrokeWatch.Outputs.Book;

namespace StrokeWatch.Reports.Books;

/// <summary>What stands in a machine book, read at one moment.</summary>
internal sealed record BookSummary
{
    /// <summary>Gets the book's file.</summary>
    public required string File { get; init; }

    /// <summary>Gets what was counted; null where nothing was.</summary>
    public BookCounters? Counters { get; init; }

    /// <summary>Gets the entries, in order.</summary>
    public required IReadOnlyList<BookEntry> Entries { get; init; }

    /// <summary>Gets the reminders as they stand, the nearest first.</summary>
    public required IReadOnlyList<ReminderState> Reminders { get; init; }

    /// <summary>Gets how many tuning sessions there were.</summary>
    public required int Sessions { get; init; }

    /// <summary>Gets the last tuning session that has a trial; null where none has.</summary>
    public BookSession? Session { get; init; }

    /// <summary>Gets that session's trials, in order.</summary>
    public IReadOnlyList<BookTrial> Trials { get; init; } = [];

    /// <summary>Gets what guided checks found, in order.</summary>
    public IReadOnlyList<BookCheckAnswer> Checks { get; init; } = [];

    /// <summary>Gets the leaf sets in order, each with what it has run until the next one came in; null where nothing was counted.</summary>
    public IReadOnlyList<(BookEntry Entry, double? Seconds, double? Cycles)> LeafSets
    {
        get
        {
            var sets = Entries.Where(entry => entry.Kind == BookEntryKind.LeafSet).ToList();
            return
            [
                .. sets.Select((set, i) => i + 1 < sets.Count
                    ? (set, (sets[i + 1].AtSeconds ?? 0) - (set.AtSeconds ?? 0), (sets[i + 1].AtCycles ?? 0) - (set.AtCycles ?? 0))
                    : (set, Counters?.Seconds - (set.AtSeconds ?? 0), Counters?.Cycles - (set.AtCycles ?? 0))),
            ];
        }
    }

    /// <summary>Reads it.</summary>
    /// <exception cref="BookException">The book cannot be read.</exception>
    public static BookSummary Read(MachineBook book)
    {
        var counters = book.Running.Read();
        var sessions = book.Sessions.All();
        var (session, trials) = sessions.Reverse().Select(session => (session, trials: book.Sessions.Trials(session.Id))).FirstOrDefault(pair => pair.trials.Any(trial => trial.Counts));
        return new()
        {
            File = book.FilePath,
            Counters = counters,
            Entries = book.Entries.All(),
            Reminders = [.. book.Reminders.All().Select(reminder => ReminderState.Of(reminder, counters)).OrderByDescending(state => state.Level)],
            Sessions = sessions.Count,
            Session = session,
            Trials = trials ?? [],
            Checks = book.Checks.Since(DateTimeOffset.UnixEpoch),
        };
    }
}
