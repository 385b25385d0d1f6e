using System.Globalization;
using Microsoft.Data.Sqlite;
using StrokeWatch.Outputs.Store;

namespace StrokeWatch.Outputs.Book;

/// <summary>One connection to a book: opens it, runs its statements, and words whatever goes wrong.</summary>
internal sealed class BookConnection : IDisposable
{
    private const int LockSeconds = 5;
    private static readonly TimeSpan CheckLimit = TimeSpan.FromSeconds(10);

    private readonly SqliteConnection connection;
    private readonly string path;
    private readonly bool writes;

    private BookConnection(SqliteConnection connection, string path, bool writes) => (this.connection, this.path, this.writes) = (connection, path, writes);

    /// <summary>Opens a book for writing and reading; makes it where there is none.</summary>
    /// <exception cref="BookException">It cannot be opened, is damaged, no book, or of a later version; the file is left as it is.</exception>
    public static BookConnection OpenWriter(string path, TimeProvider clock) => Open(path, writes: true, () =>
    {
        PrivateFile.Create(path);
        var connection = Connect(path, SqliteOpenMode.ReadWrite);
        try
        {
            if (Database.QuickCheck(connection, CheckLimit, clock) is { } wrong)
            {
                throw new BookException(Damaged(path, wrong));
            }

            BookSchema.Ensure(connection, path);
            Database.Execute(connection, "PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL; PRAGMA foreign_keys=ON;");
            return connection;
        }
        catch
        {
            connection.Dispose();
            throw;
        }
    });

    /// <summary>Opens a book for reading only, also while others write it; it must exist.</summary>
    /// <exception cref="BookException">It is missing, cannot be opened, is damaged, no book, or of a later version.</exception>
    public static BookConnection OpenReader(string path) => Open(path, writes: false, () =>
    {
        if (!File.Exists(path))
        {
            throw new BookException($"{path}: there is no such machine book; `strokewatch tune` and `strokewatch watch` begin one beside the feeder file");
        }

        var connection = Connect(path, SqliteOpenMode.ReadOnly);
        try
        {
            BookSchema.Check(connection, path);
            return connection;
        }
        catch
        {
            connection.Dispose();
            throw;
        }
    });

    /// <summary>Does several things as one: all of them are on the disk when it returns, or none is where it throws.</summary>
    /// <exception cref="BookException">It was not written.</exception>
    public T Write<T>(Func<BookStatements, T> work)
    {
        if (!writes)
        {
            throw new InvalidOperationException("The book was opened for reading only.");
        }

        return Guard(() =>
        {
            using var transaction = connection.BeginTransaction(deferred: false);
            var result = work(new(connection, transaction));
            transaction.Commit();
            return result;
        });
    }

    /// <summary>Reads.</summary>
    /// <exception cref="BookException">It cannot be read.</exception>
    public T Read<T>(Func<BookStatements, T> work) => Guard(() => work(new(connection, null)));

    /// <inheritdoc/>
    public void Dispose() => connection.Dispose();

    private static BookConnection Open(string path, bool writes, Func<SqliteConnection> open)
    {
        try
        {
            return new(open(), path, writes);
        }
        catch (Exception trouble) when (trouble is SqliteException or IOException or UnauthorizedAccessException)
        {
            throw new BookException(Words(path, trouble, writes));
        }
    }

    private static SqliteConnection Connect(string path, SqliteOpenMode mode)
    {
        var connection = new SqliteConnection(new SqliteConnectionStringBuilder { DataSource = path, Mode = mode, Pooling = false, DefaultTimeout = LockSeconds }.ConnectionString);
        try
        {
            connection.Open();
            Database.Execute(connection, string.Create(CultureInfo.InvariantCulture, $"PRAGMA busy_timeout={LockSeconds * 1000}"));
            return connection;
        }
        catch
        {
            connection.Dispose();
            throw;
        }
    }

    private T Guard<T>(Func<T> work)
    {
        try
        {
            return work();
        }
        catch (SqliteException trouble)
        {
            throw new BookException(Words(path, trouble, writes));
        }
    }

    private static string Words(string path, Exception trouble, bool writes) => trouble switch
    {
        SqliteException broken when Database.IsBroken(broken) => Damaged(path, broken.Message),
        SqliteException { SqliteErrorCode: Database.Full } => $"{path}: the disk is full: free some space and try again",
        SqliteException { SqliteErrorCode: 5 or 6 } => $"{path}: is held by another program: close that program and try again",
        SqliteException { SqliteErrorCode: 8 } when !writes => $"{path}: may not be read from here, for SQLite keeps notes beside it: check owner and mode of the file and its folder, or copy the book to a folder of your own",
        SqliteException { SqliteErrorCode: 8 } or UnauthorizedAccessException => $"{path}: may not be written: check owner and mode of the file and its folder",
        SqliteException { SqliteErrorCode: 14 } => $"{path}: cannot be opened: check the folder, its owner and mode",
        DirectoryNotFoundException => $"{path}: the folder is missing: create it",
        _ => $"{path}: {trouble.Message.ReplaceLineEndings(" ")}",
    };

    private static string Damaged(string path, string how) =>
        $"{path}: is damaged or no machine book ({how.ReplaceLineEndings(" ").TrimEnd('.')}) and is left as it is: move it away, put a copy back, or name another file with --book";
}
