using System.Globalization;
using Microsoft.Data.Sqlite;

namespace StrokeWatch.Outputs.Store;

/// <summary>Counts the time for which rows have been taken, whatever the computer's clock says, and tells which windows lie further back in it than they are kept.</summary>
/// <remarks>
/// Marks of (number of the newest window, time lived) stand in the file, one an hour and one at each opening. What was lived since the last mark of a run that ended is what its windows say that they measured.
/// A clock that jumps, forwards or back, starts in 1970 or is set right while the program is off makes no window older here.
/// </remarks>
internal sealed class LivedTime(TimeProvider clock)
{
    private const double MarkSeconds = 3600;

    // A window takes half a second; a greater guess for a file without marks would make its windows older than they are.
    private const double MostGuessedLength = 0.5;

    private double lived;
    private double marked;
    private long stamp = clock.GetTimestamp();

    /// <summary>Goes on from what the file says; one of an earlier version, without marks, gets them by its windows' length.</summary>
    public void Resume(SqliteConnection connection)
    {
        var known = Number(connection, "SELECT max(lived_s) FROM lived") ?? Guess(connection);
        var since = Number(connection, "SELECT sum(length_s) FROM window WHERE id > (SELECT coalesce(max(window_id), 0) FROM lived)") ?? 0;
        lived = Math.Max(Now(), known + since);
        Mark(connection);
    }

    /// <summary>Puts a mark where one is due.</summary>
    public void MarkIfDue(SqliteConnection connection)
    {
        if (Now() - marked >= MarkSeconds)
        {
            Mark(connection);
        }
    }

    /// <summary>Gives the number of the newest window that lies so many days lived back; null where none does.</summary>
    public long? Newest(SqliteConnection connection, int days) => (long?)Number(connection, Invariant($"SELECT max(window_id) FROM lived WHERE lived_s <= {Now() - 86_400.0 * days:R}"));

    /// <summary>Drops the marks before a window's, which nothing asks for any more.</summary>
    public static void Forget(SqliteConnection connection, long window) => Database.Execute(connection, Invariant($"DELETE FROM lived WHERE window_id < {window}"));

    private double Now()
    {
        var now = clock.GetTimestamp();
        lived += clock.GetElapsedTime(stamp, now).TotalSeconds;
        stamp = now;
        return lived;
    }

    private void Mark(SqliteConnection connection)
    {
        marked = Now();

        // Where no window came since the last mark, the newer time must not take its place: those windows are as old as they were.
        Database.Execute(connection, Invariant($"INSERT OR IGNORE INTO lived SELECT coalesce(max(id), 0), {marked:R} FROM window"));
    }

    private static double Guess(SqliteConnection connection)
    {
        if (Number(connection, "SELECT min(id) FROM window") is not { } first || Number(connection, "SELECT max(id) FROM window") is not { } last
            || Number(connection, "SELECT avg(length_s) FROM (SELECT length_s FROM window ORDER BY id DESC LIMIT 1000)") is not (> 0 and var length))
        {
            return 0;
        }

        length = Math.Min(length, MostGuessedLength);
        using var transaction = connection.BeginTransaction();
        for (var at = MarkSeconds; at < (last - first + 1) * length; at += MarkSeconds)
        {
            Database.Execute(connection, Invariant($"INSERT OR IGNORE INTO lived VALUES ({(long)(first + at / length)}, {at:R})"), transaction);
        }

        Database.Execute(connection, Invariant($"INSERT OR IGNORE INTO lived VALUES ({(long)last}, {(last - first + 1) * length:R})"), transaction);
        transaction.Commit();
        return (last - first + 1) * length;
    }

    private static double? Number(SqliteConnection connection, string sql)
    {
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        return command.ExecuteScalar() is { } found and not DBNull ? Convert.ToDouble(found, CultureInfo.InvariantCulture) : null;
    }

    private static string Invariant(FormattableString text) => FormattableString.Invariant(text);
}
