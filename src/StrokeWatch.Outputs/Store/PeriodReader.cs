using Microsoft.Data.Sqlite;

namespace StrokeWatch.Outputs.Store;

/// <summary>Sums up windows over a period without reading them one by one.</summary>
internal static class PeriodReader
{
    /// <summary>Which windows count towards the stroke: running, measured, of one feeder.</summary>
    public const string Counted = "feeder = $feeder AND pp_mm IS NOT NULL AND verdict NOT IN ('stopped', 'unmeasurable') AND utc_ms >= $from AND utc_ms < $to";

    private const string Query =
        $"SELECT (utc_ms - $from) / $width, min(pp_mm), max(pp_mm), count(*) FROM window WHERE {Counted} GROUP BY 1 ORDER BY 1";

    /// <summary>Gives the length of a part in milliseconds.</summary>
    public static long Width(DateTimeOffset from, DateTimeOffset to, int parts) => Math.Max(1, (to - from).Ticks / TimeSpan.TicksPerMillisecond / parts + 1);

    /// <summary>Gives the smallest and largest stroke of each part of a period that has any, in order.</summary>
    public static IReadOnlyList<StoredColumn> Columns(SqliteConnection connection, string feeder, DateTimeOffset from, DateTimeOffset to, int parts) =>
        Columns(connection, feeder, from, to, Width(from, to, parts));

    /// <summary>Gives the same of parts of so many milliseconds.</summary>
    public static IReadOnlyList<StoredColumn> Columns(SqliteConnection connection, string feeder, DateTimeOffset from, DateTimeOffset to, long width)
    {
        using var command = connection.CreateCommand();
        command.CommandText = Query;
        command.Parameters.AddWithValue("$feeder", feeder);
        command.Parameters.AddWithValue("$from", from.ToUnixTimeMilliseconds());
        command.Parameters.AddWithValue("$to", to.ToUnixTimeMilliseconds());
        command.Parameters.AddWithValue("$width", width);
        using var rows = command.ExecuteReader();
        var columns = new List<StoredColumn>();
        while (rows.Read())
        {
            columns.Add(new((int)rows.GetInt64(0), rows.GetDouble(1) / 1e3, rows.GetDouble(2) / 1e3, rows.GetInt64(3)));
        }

        return columns;
    }
}
