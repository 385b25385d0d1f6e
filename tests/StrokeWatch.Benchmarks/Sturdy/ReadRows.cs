using System.Globalization;
using Microsoft.Data.Sqlite;

namespace StrokeWatch.Benchmarks.Sturdy;

/// <summary>All that a reader of a store has read while it was being written, to hold the file against after a kill.</summary>
internal sealed class ReadRows(string path)
{
    private static readonly string[] Tables = ["window", "alarm", "alarm_journal", "event", "stretch", "finding"];
    private readonly Dictionary<string, SortedDictionary<long, string>> read = Tables.ToDictionary(table => table, _ => new SortedDictionary<long, string>());

    public int Count => read.Values.Sum(rows => rows.Count);

    public int Windows => read["window"].Count;

    /// <summary>Gets how many events say that a run before was not stopped in order.</summary>
    public int Gaps => read["event"].Values.Count(row => row.Contains("was not stopped in order", StringComparison.Ordinal));

    /// <summary>Reads what is new; gives how many rows.</summary>
    public int Look() => File.Exists(path) ? Take(path) : 0;

    /// <summary>Checks the file as a kill left it; a copy is looked at, so that the daemon itself has to bring in the journal. Gives what is wrong, and takes what is new.</summary>
    public IReadOnlyList<string> Check()
    {
        if (!File.Exists(path))
        {
            return Count == 0 ? [] : ["the file is gone"];
        }

        var folder = Directory.CreateTempSubdirectory("strokewatch-copy").FullName;
        try
        {
            var copy = Path.Combine(folder, "copy.db");
            foreach (var suffix in new[] { "", "-wal" })
            {
                if (File.Exists(path + suffix))
                {
                    File.Copy(path + suffix, copy + suffix);
                }
            }

            var wrong = Wrong(copy, read);
            _ = Take(copy);
            return wrong;
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    public override string ToString() => string.Join(", ", read.Where(table => table.Value.Count > 0).Select(table => $"{table.Value.Count} of {table.Key}"));

    private int Take(string file)
    {
        var before = Count;
        try
        {
            using var connection = Open(file, SqliteOpenMode.ReadOnly);
            foreach (var (table, rows) in read)
            {
                var last = rows.Count == 0 ? 0 : rows.Keys.Last();
                foreach (var (id, row) in Rows(connection, table, last))
                {
                    rows.Add(id, row);
                }
            }
        }
        catch (SqliteException)
        {
            // The tables are not there yet, or the writer is opening the file.
        }

        return Count - before;
    }

    private static List<string> Wrong(string copy, Dictionary<string, SortedDictionary<long, string>> expected)
    {
        var wrong = new List<string>();
        using var connection = Open(copy, SqliteOpenMode.ReadWrite);
        using (var command = connection.CreateCommand())
        {
            command.CommandText = "PRAGMA integrity_check";
            if (command.ExecuteScalar() is not "ok" and var answer)
            {
                wrong.Add($"integrity_check says {answer}");
            }
        }

        foreach (var (table, rows) in expected.Where(table => table.Value.Count > 0))
        {
            var held = Rows(connection, table, 0).ToDictionary(row => row.Id, row => row.Text);
            wrong.AddRange(rows.Where(row => held.GetValueOrDefault(row.Key) != row.Value).Select(row => $"row {row.Key} of {table} was read before and is {(held.ContainsKey(row.Key) ? "changed" : "gone")}"));
        }

        return wrong;
    }

    private static List<(long Id, string Text)> Rows(SqliteConnection connection, string table, long after)
    {
        using var command = connection.CreateCommand();
        command.CommandText = $"SELECT id, * FROM {table} WHERE id > $after ORDER BY id";
        command.Parameters.AddWithValue("$after", after);
        using var reader = command.ExecuteReader();
        var rows = new List<(long, string)>();
        while (reader.Read())
        {
            rows.Add((reader.GetInt64(0), string.Join('|', Enumerable.Range(1, reader.FieldCount - 1).Select(i => Convert.ToString(reader.GetValue(i), CultureInfo.InvariantCulture)))));
        }

        return rows;
    }

    private static SqliteConnection Open(string path, SqliteOpenMode mode)
    {
        var connection = new SqliteConnection(new SqliteConnectionStringBuilder { DataSource = path, Mode = mode, Pooling = false, DefaultTimeout = 5 }.ConnectionString);
        connection.Open();
        return connection;
    }
}
