using Microsoft.Data.Sqlite;

namespace StrokeWatch.Outputs.Forwarding;

/// <summary>Reads rows behind a place from the store while the daemon writes it; nothing is copied, the store itself is the queue.</summary>
/// <param name="path">The store's file; it need not be there yet.</param>
internal sealed class WaitingRows(string path)
{
    /// <summary>Gives the oldest rows after a place, at most so many.</summary>
    /// <remarks>The file is opened each time: it may have been moved aside and begun anew.</remarks>
    /// <param name="table">The table.</param>
    /// <param name="place">The place.</param>
    /// <param name="most">The most rows.</param>
    /// <param name="beside">What is read along with each row; null for nothing.</param>
    /// <exception cref="SqliteException">The file cannot be read.</exception>
    public WaitingBatch After(string table, RowPlace place, int most, RowsBeside? beside = null)
    {
        if (!File.Exists(path))
        {
            return WaitingBatch.None(place);
        }

        using var connection = new SqliteConnection(new SqliteConnectionStringBuilder
        {
            DataSource = path,
            Mode = SqliteOpenMode.ReadOnly,
            Pooling = false,
            DefaultTimeout = 5,
        }.ConnectionString);
        connection.Open();
        using var unchanging = connection.BeginTransaction(deferred: true);
        if (!Has(connection, table))
        {
            return WaitingBatch.None(place);
        }

        var newest = Number(connection, "SELECT seq FROM sqlite_sequence WHERE name = $value", table) ?? 0;
        var anew = newest < place.Id || (Number(connection, $"SELECT utc_ms FROM {table} WHERE id = $value", place.Id) is { } utc && utc != place.UtcMs);
        var from = anew ? RowPlace.Start : place;
        var rows = Rows(connection, table, from.Id, most, beside is not null && Has(connection, beside.Table) ? beside : null);
        return new(from, anew, rows, rows.Count == 0 ? 0 : rows[^1].Id - from.Id - rows.Count, newest - from.Id);
    }

    private static bool Has(SqliteConnection connection, string table) =>
        Number(connection, "SELECT count(*) FROM sqlite_master WHERE type = 'table' AND name = $value", table) == 1;

    private static long? Number(SqliteConnection connection, string sql, object value)
    {
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        command.Parameters.AddWithValue("$value", value);
        return command.ExecuteScalar() as long?;
    }

    private static List<WaitingRow> Rows(SqliteConnection connection, string table, long after, int most, RowsBeside? beside)
    {
        using var command = connection.CreateCommand();
        var (more, joined) = beside is null ? ("", "") : (
            string.Concat(beside.Columns.Select(column => $", beside.{column} AS {beside.Prefix}{column}")), $" LEFT JOIN {beside.Table} AS beside ON beside.{beside.Key} = {table}.id");
        command.CommandText = $"SELECT {table}.*{more} FROM {table}{joined} WHERE {table}.id > $after ORDER BY {table}.id LIMIT $most";
        command.Parameters.AddWithValue("$after", after);
        command.Parameters.AddWithValue("$most", most);
        using var reader = command.ExecuteReader();
        var (id, utc) = (reader.GetOrdinal("id"), reader.GetOrdinal("utc_ms"));
        var rows = new List<WaitingRow>();
        while (reader.Read())
        {
            var values = new List<KeyValuePair<string, object>>(reader.FieldCount);
            for (var column = 0; column < reader.FieldCount; column++)
            {
                if (column != id && column != utc && !reader.IsDBNull(column))
                {
                    values.Add(new(reader.GetName(column), reader.GetValue(column)));
                }
            }

            rows.Add(new(reader.GetInt64(id), reader.GetInt64(utc), values));
        }

        return rows;
    }
}
