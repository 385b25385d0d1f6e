using System.Globalization;
using Microsoft.Data.Sqlite;

namespace StrokeWatch.Outputs.Store;

/// <summary>The tables of the store. Lengths in mm, times in s, instants in milliseconds since 1970 UTC; what was not measured is null.</summary>
internal static class Schema
{
    /// <summary>The version that stands in the table meta under schema_version.</summary>
    public const int Version = 5;

    private const int Oldest = 1;

    private const string Tables = """
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
        CREATE TABLE IF NOT EXISTS stretch (
            id INTEGER PRIMARY KEY AUTOINCREMENT, feeder TEXT NOT NULL, utc_ms INTEGER NOT NULL,
            length_s REAL NOT NULL, ended TEXT NOT NULL, alarm INTEGER NOT NULL, steady_windows INTEGER NOT NULL, reason TEXT);
        CREATE INDEX IF NOT EXISTS stretch_utc ON stretch (utc_ms);
        CREATE TABLE IF NOT EXISTS stretch_feature (
            stretch_id INTEGER NOT NULL REFERENCES stretch (id), name TEXT NOT NULL, value REAL NOT NULL, PRIMARY KEY (stretch_id, name)) WITHOUT ROWID;
        CREATE TABLE IF NOT EXISTS finding (
            id INTEGER PRIMARY KEY AUTOINCREMENT, feeder TEXT NOT NULL, utc_ms INTEGER NOT NULL,
            finding TEXT NOT NULL, raised INTEGER NOT NULL, confidence REAL, words TEXT NOT NULL,
            because TEXT NOT NULL, check_first TEXT NOT NULL, confirm TEXT, tell_apart TEXT);
        CREATE INDEX IF NOT EXISTS finding_utc ON finding (utc_ms);
        CREATE TABLE IF NOT EXISTS alarm_journal (
            id INTEGER PRIMARY KEY AUTOINCREMENT, feeder TEXT NOT NULL, utc_ms INTEGER NOT NULL,
            alarm TEXT NOT NULL, act TEXT NOT NULL, state_from TEXT NOT NULL, state_to TEXT NOT NULL, beneath TEXT NOT NULL,
            by TEXT NOT NULL, words TEXT NOT NULL, until_utc_ms INTEGER);
        CREATE INDEX IF NOT EXISTS alarm_journal_utc ON alarm_journal (utc_ms);
        CREATE TABLE IF NOT EXISTS capture (
            id INTEGER PRIMARY KEY AUTOINCREMENT, feeder TEXT NOT NULL, utc_ms INTEGER NOT NULL,
            alarm TEXT NOT NULL, file TEXT NOT NULL, from_utc_ms INTEGER NOT NULL, length_s REAL NOT NULL,
            lost_samples INTEGER NOT NULL, whole INTEGER NOT NULL, removed_utc_ms INTEGER);
        CREATE INDEX IF NOT EXISTS capture_utc ON capture (utc_ms);
        CREATE TABLE IF NOT EXISTS window_supply (
            window_id INTEGER PRIMARY KEY REFERENCES window (id), rms_v REAL, mains_v REAL, fundamental_v REAL, phase_deg REAL, conduction_share REAL, firing_deg REAL);
        CREATE TABLE IF NOT EXISTS lived (window_id INTEGER PRIMARY KEY, lived_s REAL NOT NULL);
        """;

    /// <summary>Creates what is missing, and what an earlier version's file lacks; refuses a file that a later version has written.</summary>
    public static void Ensure(SqliteConnection connection)
    {
        using var transaction = connection.BeginTransaction();
        using var command = connection.CreateCommand();
        command.CommandText = "CREATE TABLE IF NOT EXISTS meta (key TEXT PRIMARY KEY, value TEXT NOT NULL) WITHOUT ROWID; SELECT value FROM meta WHERE key = 'schema_version';";
        var found = (string?)command.ExecuteScalar();
        if (found is not null && !(int.TryParse(found, NumberStyles.None, CultureInfo.InvariantCulture, out var version) && version is >= Oldest and <= Version))
        {
            throw new StoreVersionException($"the database has schema {found}, this program knows {Version}: use the newer program, or move the file away");
        }

        // All that has come since the first version are tables of their own: what is there stays as it is.
        command.CommandText = Tables + $"INSERT OR REPLACE INTO meta VALUES ('schema_version', '{Version}');";
        command.ExecuteNonQuery();
        transaction.Commit();
    }
}
