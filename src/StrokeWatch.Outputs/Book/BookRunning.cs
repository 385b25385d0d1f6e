namespace StrokeWatch.Outputs.Book;

/// <summary>The page of running: hours, cycles, starts.</summary>
public sealed class BookRunning
{
    private readonly BookConnection connection;

    internal BookRunning(BookConnection connection) => this.connection = connection;

    /// <summary>Gives what was counted; null where nothing was.</summary>
    public BookCounters? Read() => connection.Read(Read);

    /// <summary>Adds running to the counters in one step, so that two who count lose nothing.</summary>
    /// <param name="seconds">Time of running in s, not negative.</param>
    /// <param name="cycles">Strokes made, not negative.</param>
    /// <param name="starts">Starts, not negative.</param>
    /// <param name="secondsOutside">Time of running outside the band in s, not negative.</param>
    /// <param name="now">The instant; the first one is since when it is counted.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is negative or no number.</exception>
    public BookCounters Add(double seconds, double cycles, long starts, double secondsOutside, DateTimeOffset now)
    {
        if (!(seconds >= 0 && cycles >= 0 && starts >= 0 && secondsOutside >= 0 && double.IsFinite(seconds + cycles + secondsOutside)))
        {
            throw new ArgumentOutOfRangeException(nameof(seconds), "Counters only rise, by finite numbers.");
        }

        return connection.Write(book =>
        {
            book.Run(
                """
                INSERT INTO running VALUES (1, $seconds, $cycles, $starts, $outside, $now, $now) ON CONFLICT (id) DO UPDATE SET
                    running_s = running_s + $seconds, cycles = cycles + $cycles, starts = starts + $starts, outside_s = outside_s + $outside, updated_ms = $now
                """,
                ("seconds", seconds), ("cycles", cycles), ("starts", starts), ("outside", secondsOutside), ("now", now.ToUnixTimeMilliseconds()));
            return Read(book)!;
        });
    }

    internal static BookCounters? Read(BookStatements book) => book.Rows(
        "SELECT * FROM running",
        row => new BookCounters(row.Number("running_s")!.Value, row.Number("cycles")!.Value, row.Whole("starts"), row.Number("outside_s")!.Value, row.Utc("since_ms"), row.Utc("updated_ms")))
        .FirstOrDefault();
}
