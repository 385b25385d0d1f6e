namespace StrokeWatch.Outputs.Book;

/// <summary>The page of reminders.</summary>
public sealed class BookReminders
{
    private readonly BookConnection connection;

    internal BookReminders(BookConnection connection) => this.connection = connection;

    /// <summary>Sets the reminder of a kind, counted from this moment on; one that is there is replaced. Without hours and cycles it is taken away.</summary>
    /// <param name="kind">What is to be done.</param>
    /// <param name="everySeconds">After how much running in s; null for never.</param>
    /// <param name="everyCycles">After how many cycles; null for never.</param>
    /// <param name="now">The instant.</param>
    public void Set(BookEntryKind kind, double? everySeconds, double? everyCycles, DateTimeOffset now) => connection.Write(book =>
    {
        var word = BookNames.Of(kind);
        book.Run("DELETE FROM reminder WHERE kind = $kind", ("kind", word));
        if (everySeconds is not null || everyCycles is not null)
        {
            var running = BookRunning.Read(book);
            book.Run(
                "INSERT INTO reminder VALUES ($kind, $seconds, $cycles, $now, $at_seconds, $at_cycles)",
                ("kind", word), ("seconds", everySeconds), ("cycles", everyCycles), ("now", now.ToUnixTimeMilliseconds()), ("at_seconds", running?.Seconds ?? 0), ("at_cycles", running?.Cycles ?? 0));
        }

        return 0;
    });

    /// <summary>Gives all reminders; one of a kind that this version does not know is passed over.</summary>
    public IReadOnlyList<BookReminder> All() => connection.Read(book => book.Rows(
        "SELECT * FROM reminder ORDER BY kind",
        row => BookNames.Kind(row.Word("kind")) is { } kind
            ? new BookReminder(kind, row.Number("every_running_s"), row.Number("every_cycles"), row.Utc("last_ms"), row.Number("last_running_s")!.Value, row.Number("last_cycles")!.Value)
            : null)).OfType<BookReminder>().ToList();
}
