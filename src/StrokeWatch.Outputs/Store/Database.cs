using System.Globalization;
using Microsoft.Data.Sqlite;
using SQLitePCL;

namespace StrokeWatch.Outputs.Store;

/// <summary>Opens the database file as the store needs it, checks it, and moves a broken one aside.</summary>
internal static class Database
{
    /// <summary>SQLITE_FULL: the disk is full.</summary>
    public const int Full = 13;

    private const int Corrupt = 11;
    private const int NotADatabase = 26;
    private const int Interrupted = 9;

    /// <summary>Says whether an error means that the file itself is broken.</summary>
    public static bool IsBroken(SqliteException e) => e.SqliteErrorCode is Corrupt or NotADatabase;

    /// <summary>Opens the one writing connection: WAL with a full sync at each commit, so that what is confirmed survives a kill and a power cut.</summary>
    public static SqliteConnection OpenWriter(StoreOptions options)
    {
        CreatePrivate(options.Path);
        var connection = new SqliteConnection(new SqliteConnectionStringBuilder
        {
            DataSource = options.Path,
            Mode = SqliteOpenMode.ReadWriteCreate,
            Pooling = false,
            DefaultTimeout = options.LockSeconds,
        }.ConnectionString);
        try
        {
            connection.Open();

            // auto_vacuum counts only before the first table. The small WAL (64 pages, 256 KiB) is what lets 1 MiB of ballast free a full disk.
            Execute(connection, "PRAGMA auto_vacuum=INCREMENTAL; PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL;");
            Execute(connection, "PRAGMA wal_autocheckpoint=64; PRAGMA journal_size_limit=262144; PRAGMA temp_store=MEMORY; PRAGMA cache_size=-4000;");
            return connection;
        }
        catch
        {
            connection.Dispose();
            throw;
        }
    }

    /// <summary>Checks the file; gives what is wrong, or null. A check that outlasts its limit is given up and counts as passed.</summary>
    public static string? QuickCheck(SqliteConnection connection, TimeSpan limit, TimeProvider clock)
    {
        using var alarm = clock.CreateTimer(_ => raw.sqlite3_interrupt(connection.Handle), null, limit, Timeout.InfiniteTimeSpan);
        try
        {
            using var command = connection.CreateCommand();
            command.CommandText = "PRAGMA quick_check(1)";
            command.CommandTimeout = 0;
            var answer = (string?)command.ExecuteScalar();
            return answer == "ok" ? null : answer ?? "no answer";
        }
        catch (SqliteException e) when (e.SqliteErrorCode == Interrupted)
        {
            return null;
        }
    }

    /// <summary>Moves a broken database with its journal aside, the date in its name; gives the new name.</summary>
    public static string MoveAside(string path, DateTimeOffset now)
    {
        var aside = path + now.UtcDateTime.ToString("'.broken-'yyyyMMdd'T'HHmmss'Z'", CultureInfo.InvariantCulture);
        for (var n = 2; File.Exists(aside); n++)
        {
            aside = string.Create(CultureInfo.InvariantCulture, $"{path}.broken-{now.UtcDateTime:yyyyMMdd'T'HHmmss'Z'}-{n}");
        }

        foreach (var suffix in new[] { "-wal", "-shm", "" })
        {
            if (File.Exists(path + suffix))
            {
                File.Move(path + suffix, aside + suffix);
            }
        }

        return aside;
    }

    /// <summary>Runs statements that answer nothing.</summary>
    public static void Execute(SqliteConnection connection, string sql, SqliteTransaction? transaction = null)
    {
        using var command = connection.CreateCommand();
        command.Transaction = transaction;
        command.CommandText = sql;
        command.ExecuteNonQuery();
    }

    /// <summary>Creates an empty file that only its owner writes and its group reads; the journal takes over the file's mode.</summary>
    private static void CreatePrivate(string path)
    {
        if (File.Exists(path))
        {
            return;
        }

        var options = new FileStreamOptions { Mode = FileMode.OpenOrCreate, Access = FileAccess.Write };
        if (!OperatingSystem.IsWindows())
        {
            options.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.GroupRead;
        }

        using var created = new FileStream(path, options);
    }
}
