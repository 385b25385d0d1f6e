namespace StrokeWatch.Outputs.Book;

/// <summary>The pages of guided checks.</summary>
public sealed class BookChecks
{
    private readonly BookConnection connection;

    internal BookChecks(BookConnection connection) => this.connection = connection;

    /// <summary>Adds what was found; gives its number.</summary>
    public long Add(BookCheckAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        return connection.Write(book => Insert(book, answer));
    }

    /// <summary>Gives what was found from an instant on, in order.</summary>
    public IReadOnlyList<BookCheckAnswer> Since(DateTimeOffset from) => connection.Read(book => book.Rows(
        "SELECT * FROM check_answer WHERE utc_ms >= $from ORDER BY id",
        row => new BookCheckAnswer(
            row.Whole("id"), row.WholeOrNone("session_id"), row.Utc("utc_ms"), row.Word("check_id"), row.Word("answer"), row.WordOrNone("who"), row.WordOrNone("note")),
        ("from", from.ToUnixTimeMilliseconds())));

    internal static long Insert(BookStatements book, BookCheckAnswer answer) => book.Insert(
        "check_answer", ("session_id", answer.Session), ("utc_ms", answer.Utc.ToUnixTimeMilliseconds()), ("check_id", answer.Check), ("answer", answer.Answer), ("who", answer.Who), ("note", answer.Note));
}
