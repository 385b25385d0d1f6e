using System.Globalization;
using Microsoft.Data.Sqlite;

namespace StrokeWatch.Outputs.Store;

/// <summary>Tells from the database, before anything new is in it, that the run before did not end in order, and since when nothing was written.</summary>
internal static class Interruption
{
    private const string Newest = """
         max((SELECT utc_ms FROM event WHERE id = (SELECT max(id) FROM event)),
            coalesce((SELECT utc_ms FROM alarm_journal WHERE id = (SELECT max(id) FROM alarm_journal)), 0),
            coalesce((SELECT utc_ms + 1000 * length_s FROM window WHERE id = (SELECT max(id) FROM window)), 0))
        """;

    /// <summary>Gives the date of the row written last; null where there is none.</summary>
    public static DateTimeOffset? Last(SqliteConnection connection)
    {
        using var command = connection.CreateCommand();
        command.CommandText = "SELECT" + Newest;
        return command.ExecuteScalar() is { } found and not DBNull ? DateTimeOffset.FromUnixTimeMilliseconds(Convert.ToInt64(found, CultureInfo.InvariantCulture)) : null;
    }

    /// <summary>Gives the words for an event; null where the last run of the feeder was stopped in order, or there was none.</summary>
    public static string? Words(SqliteConnection connection, string feeder, DateTimeOffset now)
    {
        using var command = connection.CreateCommand();

        // The newest row is the one with the greatest number, whatever the clock said: a board without a battery may start in 1970.
        command.CommandText = """
            SELECT (SELECT max(id) FROM event WHERE feeder = $feeder AND kind = 'start'), (SELECT max(id) FROM event WHERE feeder = $feeder AND kind = 'stop'),
            """ + Newest;
        command.Parameters.AddWithValue("$feeder", feeder);
        using var row = command.ExecuteReader();
        if (!row.Read() || row.IsDBNull(0) || (!row.IsDBNull(1) && row.GetInt64(1) > row.GetInt64(0)))
        {
            return null;
        }

        var last = DateTimeOffset.FromUnixTimeMilliseconds(Convert.ToInt64(row.GetValue(2), CultureInfo.InvariantCulture));
        var until = now < last ? "this start, at which the clock stands earlier" : Text(now);
        return $"the run before was not stopped in order (killed, or power cut): nothing was written from {Text(last)} until {until}";
    }

    private static string Text(DateTimeOffset instant) => instant.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture);
}
