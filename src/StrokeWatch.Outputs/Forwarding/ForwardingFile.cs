using Microsoft.Data.Sqlite;
using StrokeWatch.Outputs.Book;
using StrokeWatch.Outputs.Store;

namespace StrokeWatch.Outputs.Forwarding;

/// <summary>What one output remembers: how far each table has been forwarded, and the rows that its server would not have. A small SQLite file beside the store.</summary>
/// <remarks>It is not in the store, so that no output ever holds the lock that alarms are written under. What a power cut takes from it is only sent twice:
/// a commit need not wait for the disk (synchronous = NORMAL).</remarks>
internal sealed class ForwardingFile : IDisposable
{
    /// <summary>The most refused rows that are kept, the newest.</summary>
    public const int MostRefused = 1000;

    private const string Tables = """
        PRAGMA journal_mode=WAL; PRAGMA synchronous=NORMAL; PRAGMA wal_autocheckpoint=64; PRAGMA journal_size_limit=262144;
        CREATE TABLE IF NOT EXISTS cursor (name TEXT PRIMARY KEY, last_id INTEGER NOT NULL, last_utc_ms INTEGER NOT NULL) WITHOUT ROWID;
        CREATE TABLE IF NOT EXISTS refused (
            id INTEGER PRIMARY KEY AUTOINCREMENT, utc_ms INTEGER NOT NULL, source TEXT NOT NULL, row_id INTEGER NOT NULL, reason TEXT NOT NULL, text TEXT NOT NULL);
        """;

    private readonly SqliteConnection connection;

    private ForwardingFile(SqliteConnection connection) => this.connection = connection;

    /// <summary>Gives the file's path for a store and an output: store.db has store.influx.db.</summary>
    public static string Beside(string store, string output) => Path.ChangeExtension(store, $".{output}.db");

    /// <summary>Opens the file, or makes it; one that is broken is moved aside, and all is forwarded again.</summary>
    /// <exception cref="SqliteException">It cannot be opened.</exception>
    /// <exception cref="IOException">It cannot be made.</exception>
    public static ForwardingFile Open(string path, TimeProvider clock)
    {
        try
        {
            return OpenOnce(path);
        }
        catch (SqliteException broken) when (Database.IsBroken(broken))
        {
            _ = Database.MoveAside(path, clock.GetUtcNow());
            return OpenOnce(path);
        }
    }

    /// <summary>Reads how far a table has been forwarded.</summary>
    public RowPlace Place(string table)
    {
        using var command = connection.CreateCommand();
        command.CommandText = "SELECT last_id, last_utc_ms FROM cursor WHERE name = $name";
        command.Parameters.AddWithValue("$name", table);
        using var row = command.ExecuteReader();
        return row.Read() ? new(row.GetInt64(0), row.GetInt64(1)) : RowPlace.Start;
    }

    /// <summary>Says whether it was ever noted how far a table has been forwarded.</summary>
    public bool Knows(string table)
    {
        using var command = connection.CreateCommand();
        command.CommandText = "SELECT count(*) FROM cursor WHERE name = $name";
        command.Parameters.AddWithValue("$name", table);
        return (long)command.ExecuteScalar()! > 0;
    }

    /// <summary>Notes how far a table has been forwarded.</summary>
    public void Move(string table, RowPlace place) => Move(table, place, null);

    /// <summary>Sets a row aside and moves past it, both or neither.</summary>
    public void Refuse(string table, RowPlace place, string reason, string text, DateTimeOffset now)
    {
        using var transaction = connection.BeginTransaction(deferred: false);
        using var command = connection.CreateCommand();
        command.Transaction = transaction;
        command.CommandText = $"""
            INSERT INTO refused (utc_ms, source, row_id, reason, text) VALUES ($now, $source, $row, $reason, $text);
            DELETE FROM refused WHERE id <= (SELECT max(id) FROM refused) - {MostRefused};
            """;
        command.Parameters.AddWithValue("$now", now.ToUnixTimeMilliseconds());
        command.Parameters.AddWithValue("$source", table);
        command.Parameters.AddWithValue("$row", place.Id);
        command.Parameters.AddWithValue("$reason", reason);
        command.Parameters.AddWithValue("$text", text);
        command.ExecuteNonQuery();
        Move(table, place, transaction);
        transaction.Commit();
    }

    /// <inheritdoc/>
    public void Dispose() => connection.Dispose();

    private static ForwardingFile OpenOnce(string path)
    {
        PrivateFile.Create(path);
        var connection = new SqliteConnection(new SqliteConnectionStringBuilder
        {
            DataSource = path,
            Mode = SqliteOpenMode.ReadWriteCreate,
            Pooling = false,
            DefaultTimeout = 2,
        }.ConnectionString);
        try
        {
            connection.Open();
            Database.Execute(connection, Tables);
            return new(connection);
        }
        catch
        {
            connection.Dispose();
            throw;
        }
    }

    private void Move(string table, RowPlace place, SqliteTransaction? transaction)
    {
        using var command = connection.CreateCommand();
        command.Transaction = transaction;
        command.CommandText = "INSERT OR REPLACE INTO cursor VALUES ($name, $id, $utc)";
        command.Parameters.AddWithValue("$name", table);
        command.Parameters.AddWithValue("$id", place.Id);
        command.Parameters.AddWithValue("$utc", place.UtcMs);
        command.ExecuteNonQuery();
    }
}
