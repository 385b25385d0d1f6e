using Microsoft.Data.Sqlite;
using StrokeWatch.Assessment.Alarms;

namespace StrokeWatch.Outputs.Store;

/// <summary>Reads the journal of alarms back.</summary>
internal static class JournalReader
{
    /// <summary>Reads a row; null where it holds a word of a later version.</summary>
    public static StoredStep? Step(SqliteDataReader row)
    {
        string Word(string column) => row.GetString(row.GetOrdinal(column));
        var until = row.GetOrdinal("until_utc_ms");
        if (!AlarmId.TryParse(Word("alarm"), out var id) || StoreNames.Act(Word("act")) is not { } act || StoreNames.State(Word("state_from")) is not { } from
            || StoreNames.State(Word("state_to")) is not { } to || StoreNames.State(Word("beneath")) is not { } beneath)
        {
            return null;
        }

        return new(
            row.GetInt64(row.GetOrdinal("id")),
            Word("feeder"),
            new(
                id, act, from, to, beneath, DateTimeOffset.FromUnixTimeMilliseconds(row.GetInt64(row.GetOrdinal("utc_ms"))), Word("by"), Word("words"),
                row.IsDBNull(until) ? null : DateTimeOffset.FromUnixTimeMilliseconds(row.GetInt64(until))));
    }

    /// <summary>Reads a row of the table of captures; null where it holds an alarm of a later version.</summary>
    public static AlarmWaveform? Capture(SqliteDataReader row)
    {
        DateTimeOffset Instant(string column) => DateTimeOffset.FromUnixTimeMilliseconds(row.GetInt64(row.GetOrdinal(column)));
        return !AlarmId.TryParse(row.GetString(row.GetOrdinal("alarm")), out var id) ? null : new(
            id, Instant("utc_ms"), row.GetString(row.GetOrdinal("file")), Instant("from_utc_ms"), row.GetDouble(row.GetOrdinal("length_s")),
            row.GetInt64(row.GetOrdinal("lost_samples")), row.GetInt64(row.GetOrdinal("whole")) != 0)
        {
            Removed = row.IsDBNull(row.GetOrdinal("removed_utc_ms")) ? null : Instant("removed_utc_ms"),
        };
    }

    /// <summary>Gives the last steps of each alarm of a feeder, so many of each at most, in order.</summary>
    public static IReadOnlyList<AlarmStep> Last(SqliteConnection connection, string feeder, int each)
    {
        using var command = connection.CreateCommand();
        command.CommandText = """
            SELECT * FROM alarm_journal WHERE id IN
            (SELECT id FROM (SELECT id, row_number() OVER (PARTITION BY alarm ORDER BY id DESC) AS back FROM alarm_journal WHERE feeder = $feeder) WHERE back <= $each)
            ORDER BY id
            """;
        command.Parameters.AddWithValue("$each", each);
        command.Parameters.AddWithValue("$feeder", feeder);
        using var rows = command.ExecuteReader();
        var steps = new List<AlarmStep>();
        while (rows.Read())
        {
            if (Step(rows) is { } stored)
            {
                steps.Add(stored.Step);
            }
        }

        return steps;
    }
}
