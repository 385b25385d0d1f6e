using Microsoft.Data.Sqlite;

namespace StrokeWatch.Outputs.Book;

/// <summary>Runs single statements; columns and parameters bear the same names.</summary>
internal sealed class BookStatements(SqliteConnection connection, SqliteTransaction? transaction)
{
    /// <summary>Adds a row; gives its number.</summary>
    public long Insert(string table, params (string Column, object? Value)[] values)
    {
        var columns = string.Join(", ", values.Select(value => value.Column));
        Run($"INSERT INTO {table} ({columns}) VALUES ({string.Join(", ", values.Select(value => "$" + value.Column))})", values);
        return (long)Make("SELECT last_insert_rowid()", []).ExecuteScalar()!;
    }

    /// <summary>Runs a statement; gives how many rows it touched.</summary>
    public int Run(string sql, params (string Column, object? Value)[] values)
    {
        using var command = Make(sql, values);
        return command.ExecuteNonQuery();
    }

    /// <summary>Reads rows in order.</summary>
    public List<T> Rows<T>(string sql, Func<BookRow, T> make, params (string Column, object? Value)[] values)
    {
        using var command = Make(sql, values);
        using var rows = command.ExecuteReader();
        var found = new List<T>();
        while (rows.Read())
        {
            found.Add(make(new(rows)));
        }

        return found;
    }

    private SqliteCommand Make(string sql, (string Column, object? Value)[] values)
    {
        var command = connection.CreateCommand();
        command.Transaction = transaction;
        command.CommandText = sql;
        foreach (var (column, value) in values)
        {
            // NaN is no number: SQLite would keep it as null all the same, this says so.
            command.Parameters.AddWithValue("$" + column, value is null or double.NaN ? DBNull.Value : value);
        }

        return command;
    }
}
