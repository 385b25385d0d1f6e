using System.Globalization;
using Microsoft.Data.Sqlite;

namespace StrokeWatch.Outputs.Book;

/// <summary>The tables of the machine book. Lengths in mm, times in s, instants in milliseconds since 1970 UTC; what was not measured is null.</summary>
internal static class BookSchema
{
    /// <summary>The version that stands in the table meta under schema_version.</summary>
    public const int Version = 1;

    /// <summary>The application's number in the file's head ("SWbk"): a book is told from any other database by it.</summary>
    private const long Mark = 0x5357626B;

    private const string Tables = """
        CREATE TABLE meta (key TEXT PRIMARY KEY, value TEXT NOT NULL) WITHOUT ROWID;
        CREATE TABLE tuning_session (
            id INTEGER PRIMARY KEY AUTOINCREMENT, feeder TEXT NOT NULL, started_ms INTEGER NOT NULL, ended_ms INTEGER, state TEXT NOT NULL,
            who TEXT, step TEXT NOT NULL, memory TEXT NOT NULL, turn INTEGER NOT NULL);
        CREATE UNIQUE INDEX tuning_session_open ON tuning_session (state) WHERE state = 'open';
        CREATE TABLE tuning_answer (
            id INTEGER PRIMARY KEY AUTOINCREMENT, session_id INTEGER NOT NULL REFERENCES tuning_session (id), utc_ms INTEGER NOT NULL,
            step TEXT NOT NULL, answer TEXT NOT NULL, who TEXT);
        CREATE TABLE tuning_trial (
            id INTEGER PRIMARY KEY AUTOINCREMENT, session_id INTEGER REFERENCES tuning_session (id), utc_ms INTEGER NOT NULL,
            rear TEXT NOT NULL, front TEXT, pp_mm REAL, uncertainty_mm REAL, stroke_spread REAL, verdict TEXT NOT NULL, reason TEXT,
            natural_frequency_hz REAL, natural_frequency_uncertainty_hz REAL, damping_ratio REAL, voltage_ratio REAL, tray_change_kg REAL,
            capture TEXT, line_angle_deg REAL, strike INTEGER, note TEXT, left_out INTEGER NOT NULL);
        CREATE INDEX tuning_trial_utc ON tuning_trial (utc_ms);
        CREATE TABLE check_answer (
            id INTEGER PRIMARY KEY AUTOINCREMENT, session_id INTEGER REFERENCES tuning_session (id), utc_ms INTEGER NOT NULL,
            check_id TEXT NOT NULL, answer TEXT NOT NULL, who TEXT, note TEXT);
        CREATE INDEX check_answer_utc ON check_answer (utc_ms);
        CREATE TABLE running (
            id INTEGER PRIMARY KEY CHECK (id = 1), running_s REAL NOT NULL, cycles REAL NOT NULL, starts INTEGER NOT NULL, outside_s REAL NOT NULL,
            since_ms INTEGER NOT NULL, updated_ms INTEGER NOT NULL);
        CREATE TABLE entry (
            id INTEGER PRIMARY KEY AUTOINCREMENT, session_id INTEGER REFERENCES tuning_session (id), utc_ms INTEGER NOT NULL, kind TEXT NOT NULL, who TEXT,
            rear TEXT, front TEXT, gap_mm REAL, torque_n_m REAL, text TEXT, at_running_s REAL, at_cycles REAL);
        CREATE INDEX entry_utc ON entry (utc_ms);
        CREATE TABLE reminder (
            kind TEXT PRIMARY KEY, every_running_s REAL, every_cycles REAL,
            last_ms INTEGER NOT NULL, last_running_s REAL NOT NULL, last_cycles REAL NOT NULL) WITHOUT ROWID;
        """;

    /// <summary>Creates the tables in an empty file; refuses a database that is no book, and a book that a later version has written.</summary>
    /// <exception cref="BookException">It is none of this version's.</exception>
    public static void Ensure(SqliteConnection connection, string path)
    {
        if (Empty(connection))
        {
            using var transaction = connection.BeginTransaction(deferred: false);
            using var command = connection.CreateCommand();
            command.Transaction = transaction;

            // Another program may have made the tables between the question and the lock.
            if (Empty(connection, transaction))
            {
                command.CommandText = Tables + string.Create(CultureInfo.InvariantCulture, $"INSERT INTO meta VALUES ('schema_version', '{Version}'); PRAGMA application_id = {Mark};");
                command.ExecuteNonQuery();
            }

            transaction.Commit();
        }

        Check(connection, path);
    }

    /// <summary>Refuses a database that is no book, and a book that a later version has written.</summary>
    /// <exception cref="BookException">It is none of this version's.</exception>
    public static void Check(SqliteConnection connection, string path)
    {
        using var command = connection.CreateCommand();
        command.CommandText = "PRAGMA application_id";
        if ((long)command.ExecuteScalar()! != Mark)
        {
            throw new BookException($"{path}: is a database, but no machine book; name another file with --book");
        }

        command.CommandText = "SELECT value FROM meta WHERE key = 'schema_version'";
        var found = (string?)command.ExecuteScalar();
        if (!(int.TryParse(found, NumberStyles.None, CultureInfo.InvariantCulture, out var version) && version is >= 1 and <= Version))
        {
            throw new BookException($"{path}: the book has schema {found ?? "of no number"}, this program knows {Version}: use the newer program, or name another file with --book");
        }
    }

    private static bool Empty(SqliteConnection connection, SqliteTransaction? transaction = null)
    {
        using var command = connection.CreateCommand();
        command.Transaction = transaction;
        command.CommandText = "SELECT count(*) FROM sqlite_master";
        return (long)command.ExecuteScalar()! == 0;
    }
}
