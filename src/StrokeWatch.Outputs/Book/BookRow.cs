using Microsoft.Data.Sqlite;

namespace StrokeWatch.Outputs.Book;

/// <summary>A row that is being read, column by column.</summary>
internal readonly struct BookRow(SqliteDataReader row)
{
    /// <summary>Reads a whole number.</summary>
    public long Whole(string column) => row.GetInt64(row.GetOrdinal(column));

    /// <summary>Reads a whole number that may be absent.</summary>
    public long? WholeOrNone(string column) => row.IsDBNull(row.GetOrdinal(column)) ? null : Whole(column);

    /// <summary>Reads a number that may be absent.</summary>
    public double? Number(string column) => row.IsDBNull(row.GetOrdinal(column)) ? null : row.GetDouble(row.GetOrdinal(column));

    /// <summary>Reads a text.</summary>
    public string Word(string column) => row.GetString(row.GetOrdinal(column));

    /// <summary>Reads a text that may be absent.</summary>
    public string? WordOrNone(string column) => row.IsDBNull(row.GetOrdinal(column)) ? null : Word(column);

    /// <summary>Reads an instant.</summary>
    public DateTimeOffset Utc(string column) => DateTimeOffset.FromUnixTimeMilliseconds(Whole(column));

    /// <summary>Reads an instant that may be absent.</summary>
    public DateTimeOffset? UtcOrNone(string column) => WholeOrNone(column) is { } milliseconds ? DateTimeOffset.FromUnixTimeMilliseconds(milliseconds) : null;
}
