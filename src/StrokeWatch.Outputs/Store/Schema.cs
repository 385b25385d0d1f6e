using Microsoft.Data.Sqlite;

namespace StrokeWatch.Outputs.Store;

/// <summary>The tables of the store. Lengths in mm, times in s, instants in milliseconds since 1970 UTC; what was not measured is null.</summary>
internal static class Schema
{
    /// <summary>The version that stands in the table meta under schema_version.</summary>
    public const int Version = 1;

    private const string Tables = """
        CREATE TABLE IF NOT EXISTS meta (key TEXT PRIMARY KEY, value TEXT NOT NULL) WITHOUT ROWID;
        CREATE TABLE IF NOT EXISTS window (
            id INTEGER PRIMARY KEY AUTOINCREMENT, feeder TEXT NOT NULL, utc_ms INTEGER NOT NULL,
            start_s REAL NOT NULL, length_s REAL NOT NULL,
            pp_mm REAL, fundamental_pp_mm REAL, uncertainty_mm REAL, noise_mm REAL, line_angle_deg REAL, ellipse_ratio REAL,
            frequency_hz REAL, clock_error_ppm REAL, quality TEXT NOT NULL, motion TEXT NOT NULL, verdict TEXT NOT NULL,
            strike INTEGER NOT NULL, strike_score REAL, clipped_samples INTEGER NOT NULL, reason TEXT);
        CREATE INDEX IF NOT EXISTS window_utc ON window (utc_ms);
        CREATE TABLE IF NOT EXISTS alarm (
            id INTEGER PRIMARY KEY AUTOINCREMENT, feeder TEXT NOT NULL, utc_ms INTEGER NOT NULL,
            at_s REAL NOT NULL, kind TEXT NOT NULL, raised INTEGER NOT NULL, pp_mm REAL, words TEXT NOT NULL);
        CREATE INDEX IF NOT EXISTS alarm_utc ON alarm (utc_ms);
        CREATE TABLE IF NOT EXISTS event (
            id INTEGER PRIMARY KEY AUTOINCREMENT, feeder TEXT NOT NULL, utc_ms INTEGER NOT NULL, kind TEXT NOT NULL, text TEXT NOT NULL);
        CREATE INDEX IF NOT EXISTS event_utc ON event (utc_ms);
        """;

    /// <summary>Creates what is missing; refuses a file that a later version has written.</summary>
    public static void Ensure(SqliteConnection connection)
    {
        using var transaction = connection.BeginTransaction();
        using var command = connection.CreateCommand();
        command.CommandText = Tables + $"INSERT OR IGNORE INTO meta VALUES ('schema_version', '{Version}'); SELECT value FROM meta WHERE key = 'schema_version';";
        var found = (string?)command.ExecuteScalar();
        if (found != "1")
        {
            throw new StoreVersionException($"the database has schema {found}, this program knows {Version}: use the newer program, or move the file away");
        }

        transaction.Commit();
    }
}
