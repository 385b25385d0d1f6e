namespace StrokeWatch.Outputs.Book;

/// <summary>The pages of what was done to the machine.</summary>
public sealed class BookEntries
{
    private readonly BookConnection connection;

    internal BookEntries(BookConnection connection) => this.connection = connection;

    /// <summary>Adds an entry at the running and the cycles of this moment, and starts the reminder of its kind anew; gives the entry as it was written.</summary>
    public BookEntry Add(BookEntry entry)
    {
        ArgumentNullException.ThrowIfNull(entry);
        return connection.Write(book => Insert(book, entry));
    }

    /// <summary>Gives the entries in order; of one kind where one is named.</summary>
    public IReadOnlyList<BookEntry> All(BookEntryKind? kind = null) => connection.Read(book => book.Rows(
        $"SELECT * FROM entry {(kind is null ? "" : "WHERE kind = $kind ")}ORDER BY utc_ms, id", Entry, ("kind", kind is { } named ? BookNames.Of(named) : null)));

    /// <summary>Gives the last entry of a kind; null where there is none.</summary>
    public BookEntry? Last(BookEntryKind kind) => connection.Read(book => book.Rows(
        "SELECT * FROM entry WHERE kind = $kind ORDER BY utc_ms DESC, id DESC LIMIT 1", Entry, ("kind", BookNames.Of(kind))).FirstOrDefault());

    internal static BookEntry Insert(BookStatements book, BookEntry entry)
    {
        var running = BookRunning.Read(book);
        var (kind, now) = (BookNames.Of(entry.Kind), entry.Utc.ToUnixTimeMilliseconds());
        var id = book.Insert(
            "entry",
            ("session_id", entry.Session), ("utc_ms", now), ("kind", kind), ("who", entry.Who), ("rear", entry.Rear), ("front", entry.Front),
            ("gap_mm", entry.GapMetres * 1e3), ("torque_n_m", entry.TorqueNewtonMetres), ("text", entry.Text), ("at_running_s", running?.Seconds), ("at_cycles", running?.Cycles));
        book.Run(
            "UPDATE reminder SET last_ms = $now, last_running_s = $seconds, last_cycles = $cycles WHERE kind = $kind",
            ("now", now), ("seconds", running?.Seconds ?? 0), ("cycles", running?.Cycles ?? 0), ("kind", kind));
        return book.Rows("SELECT * FROM entry WHERE id = $id", Entry, ("id", id))[0];
    }

    private static BookEntry Entry(BookRow row) => new()
    {
        Id = row.Whole("id"),
        Session = row.WholeOrNone("session_id"),
        Utc = row.Utc("utc_ms"),
        Kind = BookNames.Kind(row.Word("kind")) ?? BookEntryKind.Note,
        Who = row.WordOrNone("who"),
        Rear = row.WordOrNone("rear"),
        Front = row.WordOrNone("front"),
        GapMetres = row.Number("gap_mm") / 1e3,
        TorqueNewtonMetres = row.Number("torque_n_m"),
        Text = row.WordOrNone("text"),
        AtSeconds = row.Number("at_running_s"),
        AtCycles = row.Number("at_cycles"),
    };
}
