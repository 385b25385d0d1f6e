using Microsoft.Data.Sqlite;
using StrokeWatch.Assessment.Reports;

namespace StrokeWatch.Outputs.Store;

/// <summary>Reads stretches of running with their features.</summary>
internal static class StretchReader
{
    private const string Query = """
        SELECT s.id, s.utc_ms, s.length_s, s.ended, s.alarm, s.steady_windows, s.reason, f.name, f.value
        FROM (SELECT * FROM stretch WHERE feeder = $feeder ORDER BY id DESC LIMIT $most) s LEFT JOIN stretch_feature f ON f.stretch_id = s.id
        ORDER BY s.id;
        """;

    /// <summary>Gives the newest stretches, in order.</summary>
    public static IReadOnlyList<StoredStretch> Newest(SqliteConnection connection, string feeder, int most)
    {
        using var command = connection.CreateCommand();
        command.CommandText = Query;
        command.Parameters.AddWithValue("$feeder", feeder);
        command.Parameters.AddWithValue("$most", most);
        using var rows = command.ExecuteReader();
        var found = new List<StoredStretch>();
        var features = new Dictionary<string, double>(StringComparer.Ordinal);
        for (var more = rows.Read(); more;)
        {
            var id = rows.GetInt64(0);
            var (from, length) = (DateTimeOffset.FromUnixTimeMilliseconds(rows.GetInt64(1)), rows.GetDouble(2));
            var (ended, alarm, windows) = (StoreNames.End(rows.GetString(3)), rows.GetInt64(4) != 0, (int)rows.GetInt64(5));
            var reason = rows.IsDBNull(6) ? null : rows.GetString(6);
            features.Clear();
            for (; more && rows.GetInt64(0) == id; more = rows.Read())
            {
                if (!rows.IsDBNull(7))
                {
                    features[rows.GetString(7)] = rows.GetDouble(8);
                }
            }

            found.Add(new(id, feeder, new(from, length, ended, alarm, KeptFeatures.Read(features, windows, reason))));
        }

        return found;
    }
}
