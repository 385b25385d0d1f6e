using Microsoft.Data.Sqlite;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Watching;
using StrokeWatch.Measurement.Supply;
using StrokeWatch.Measurement.Windows;

namespace StrokeWatch.Outputs.Store;

/// <summary>Reads a store back, also while the daemon writes it.</summary>
/// <remarks>Every method may throw <see cref="SqliteException"/> where the file cannot be read.</remarks>
public sealed class StoreReader : IDisposable
{
    /// <summary>The columns of the table of windows; what stands beside it comes after them.</summary>
    private const int PlainColumns = 20;

    private readonly SqliteConnection connection;
    private readonly string windowed;

    /// <summary>Opens the database for reading only; it must exist.</summary>
    public StoreReader(string path)
    {
        connection = new SqliteConnection(new SqliteConnectionStringBuilder
        {
            DataSource = path,
            Mode = SqliteOpenMode.ReadOnly,
            Pooling = false,
            DefaultTimeout = 5,
        }.ConnectionString);
        connection.Open();

        // Files of earlier versions have no voltages.
        windowed = Has("window_supply") ? "window LEFT JOIN window_supply ON window_id = id" : "window";
    }

    /// <summary>Gives windows that start from one instant up to, not including, another, in order; at most so many (a page: go on after the last one).</summary>
    public IReadOnlyList<StoredWindow> Windows(DateTimeOffset from, DateTimeOffset to, int most = 10_000) =>
        Read($"SELECT * FROM {windowed} WHERE utc_ms >= $from AND utc_ms < $to ORDER BY utc_ms, id LIMIT $most", from, to, most, Window);

    /// <summary>Gives the window written last; null where there is none.</summary>
    public StoredWindow? LastWindow() =>
        Read($"SELECT * FROM {windowed} ORDER BY id DESC LIMIT 1", default, default, 1, Window).FirstOrDefault();

    /// <summary>Gives the alarms raised or cleared from one instant up to, not including, another, in order; at most so many.</summary>
    public IReadOnlyList<StoredAlarm> Alarms(DateTimeOffset from, DateTimeOffset to, int most = 10_000) =>
        Read("SELECT * FROM alarm WHERE utc_ms >= $from AND utc_ms < $to ORDER BY utc_ms, id LIMIT $most", from, to, most, Alarm);

    /// <summary>Gives the events from one instant up to, not including, another, in order; at most so many.</summary>
    public IReadOnlyList<StoredEvent> Events(DateTimeOffset from, DateTimeOffset to, int most = 10_000) =>
        Read("SELECT * FROM event WHERE utc_ms >= $from AND utc_ms < $to ORDER BY utc_ms, id LIMIT $most", from, to, most, Event);

    /// <summary>Gives the newest stretches of running of a feeder, at most so many, in order; none where an earlier version wrote the file.</summary>
    public IReadOnlyList<StoredStretch> NewestStretches(string feeder, int most) =>
        Has("stretch") ? StretchReader.Newest(connection, feeder, most) : [];

    /// <summary>Gives the findings raised or cleared from one instant up to, not including, another, in order; at most so many.</summary>
    public IReadOnlyList<StoredFinding> Findings(DateTimeOffset from, DateTimeOffset to, int most = 10_000) =>
        Has("finding") ? Read("SELECT * FROM finding WHERE utc_ms >= $from AND utc_ms < $to ORDER BY utc_ms, id LIMIT $most", from, to, most, Finding) : [];

    /// <summary>Gives the smallest and largest stroke of each of so many equal parts of a period in which any window counts, in order.</summary>
    public IReadOnlyList<StoredColumn> StrokeColumns(string feeder, DateTimeOffset from, DateTimeOffset to, int parts) =>
        PeriodReader.Columns(connection, feeder, from, to, parts);

    /// <summary>Gives the same of parts of so many milliseconds.</summary>
    public IReadOnlyList<StoredColumn> StrokeColumns(string feeder, DateTimeOffset from, DateTimeOffset to, long milliseconds) =>
        PeriodReader.Columns(connection, feeder, from, to, milliseconds);

    /// <summary>Gives when the oldest window kept began; null where there is none.</summary>
    public DateTimeOffset? Earliest()
    {
        using var command = connection.CreateCommand();
        command.CommandText = "SELECT min(utc_ms) FROM window";
        return command.ExecuteScalar() is long at ? DateTimeOffset.FromUnixTimeMilliseconds(at) : null;
    }

    /// <summary>Gives how long each of those parts is, in milliseconds: whole ones, so that the last part may reach beyond the period.</summary>
    public static long ColumnMilliseconds(DateTimeOffset from, DateTimeOffset to, int parts) => PeriodReader.Width(from, to, parts);

    /// <summary>Gives the last window of a period whose stroke counts; null where there is none.</summary>
    public StoredWindow? LastCounted(string feeder, DateTimeOffset from, DateTimeOffset to) =>
        Read($"SELECT * FROM {windowed} WHERE {PeriodReader.Counted} ORDER BY utc_ms DESC, id DESC LIMIT $most", from, to, 1, Window, feeder).FirstOrDefault();

    /// <summary>Gives when the program was started for a feeder, from one instant up to, not including, another, in order; at most so many.</summary>
    public IReadOnlyList<DateTimeOffset> Starts(string feeder, DateTimeOffset from, DateTimeOffset to, int most = 10_000) =>
        Read("SELECT utc_ms FROM event WHERE feeder = $feeder AND kind = 'start' AND utc_ms >= $from AND utc_ms < $to ORDER BY utc_ms, id LIMIT $most", from, to, most, Utc, feeder);

    /// <summary>Gives the alarms of a feeder that were last raised, not cleared, before an instant, and since the program last started.</summary>
    public IReadOnlyList<StoredAlarm> Standing(string feeder, DateTimeOffset at) => Read(
        """
        SELECT alarm.* FROM alarm JOIN (SELECT max(id) AS last FROM alarm WHERE feeder = $feeder AND utc_ms < $to GROUP BY kind) ON id = last
        WHERE raised = 1 AND utc_ms >= coalesce((SELECT max(utc_ms) FROM event WHERE feeder = $feeder AND kind = 'start' AND utc_ms < $to), $from) ORDER BY utc_ms, id LIMIT $most
        """,
        DateTimeOffset.UnixEpoch, at, 100, Alarm, feeder);

    /// <summary>Gives the steps of alarms' lives from one instant up to, not including, another, in order; at most so many. A step with a word of a later version is left out.</summary>
    public IReadOnlyList<StoredStep> Journal(DateTimeOffset from, DateTimeOffset to, int most = 10_000) => Has("alarm_journal")
        ? [.. Read("SELECT * FROM alarm_journal WHERE utc_ms >= $from AND utc_ms < $to ORDER BY id LIMIT $most", from, to, most, JournalReader.Step).OfType<StoredStep>()]
        : [];

    /// <summary>
    /// Gives the steps of a feeder's alarms that tell what they asked of people in a period: the newest of it, at most so many, and before them, of each alarm, the last step that says whether its condition held.
    /// In order.
    /// </summary>
    public IReadOnlyList<AlarmStep> LoadSteps(string feeder, DateTimeOffset from, DateTimeOffset to, int most = 20_000) => !Has("alarm_journal") ? [] :
    [
        .. Read(
            """
            SELECT * FROM alarm_journal WHERE
            id IN (SELECT max(id) FROM alarm_journal WHERE feeder = $feeder AND utc_ms < $from AND act IN ('activate', 'clear') GROUP BY alarm)
            OR id IN (SELECT id FROM alarm_journal WHERE feeder = $feeder AND utc_ms >= $from AND utc_ms < $to ORDER BY id DESC LIMIT $most)
            ORDER BY id
            """,
            from, to, most, JournalReader.Step, feeder).OfType<StoredStep>().Select(stored => stored.Step),
    ];

    /// <summary>Gives the last steps of each alarm of a feeder, so many of each at most, in order.</summary>
    public IReadOnlyList<AlarmStep> LastSteps(string feeder, int each = 1) => Has("alarm_journal") ? JournalReader.Last(connection, feeder, each) : [];

    /// <summary>Gives the captures of alarms raised from one instant up to, not including, another, in order, those removed since included; at most so many.</summary>
    public IReadOnlyList<AlarmWaveform> Captures(DateTimeOffset from, DateTimeOffset to, int most = 10_000) => Has("capture")
        ? [.. Read("SELECT * FROM capture WHERE utc_ms >= $from AND utc_ms < $to ORDER BY id LIMIT $most", from, to, most, JournalReader.Capture).OfType<AlarmWaveform>()]
        : [];

    /// <summary>Checks the whole file; gives what is wrong, or null.</summary>
    public string? IntegrityCheck()
    {
        using var command = connection.CreateCommand();
        command.CommandText = "PRAGMA integrity_check(1)";
        var answer = (string?)command.ExecuteScalar();
        return answer == "ok" ? null : answer;
    }

    /// <inheritdoc/>
    public void Dispose() => connection.Dispose();

    private static StoredWindow Window(SqliteDataReader row) => new(
        Whole(row, "id"),
        Word(row, "feeder"),
        Utc(row),
        new WindowReading
        {
            StartSeconds = Number(row, "start_s") ?? 0,
            LengthSeconds = Number(row, "length_s") ?? 0,
            StrokeMetres = Number(row, "pp_mm") / 1e3,
            FundamentalMetres = Number(row, "fundamental_pp_mm") / 1e3,
            UncertaintyMetres = Number(row, "uncertainty_mm") / 1e3,
            NoiseMetres = Number(row, "noise_mm") / 1e3,
            LineAngleDegrees = Number(row, "line_angle_deg"),
            EllipseRatio = Number(row, "ellipse_ratio"),
            FrequencyHz = Number(row, "frequency_hz"),
            ClockError = Number(row, "clock_error_ppm") / 1e6,
            Quality = StoreNames.Quality(Word(row, "quality")),
            Motion = StoreNames.Motion(Word(row, "motion")),
            Strike = Whole(row, "strike") != 0,
            StrikeScore = Number(row, "strike_score"),
            ClippedSamples = (int)Whole(row, "clipped_samples"),
            Reason = row["reason"] as string,
            Supply = row.FieldCount > PlainColumns ? SupplyOf(row) : null,
        },
        StoreNames.Verdict(Word(row, "verdict")));

    /// <summary>Gives the voltage beside a window; null where none was captured with it. Why something is missing is not kept.</summary>
    private static SupplyReading? SupplyOf(SqliteDataReader row) => row.IsDBNull(PlainColumns) ? null : new SupplyReading
    {
        RmsVolts = Number(row, "rms_v"),
        MainsVolts = Number(row, "mains_v"),
        FundamentalVolts = Number(row, "fundamental_v"),
        PhaseDegrees = Number(row, "phase_deg"),
        ConductionShare = Number(row, "conduction_share"),
        FiringDegrees = Number(row, "firing_deg"),
        RmsAlone = IsRmsAlone(Number(row, "mains_v"), Number(row, "fundamental_v")),
    };

    /// <summary>Says whether a stored voltage is one of which nothing but the root mean square was read: whoever reads the waveform has its fundamental wherever there is a mains' voltage.</summary>
    internal static bool IsRmsAlone(double? mainsVolts, double? fundamentalVolts) => mainsVolts is not null && fundamentalVolts is null;

    private static StoredAlarm Alarm(SqliteDataReader row) => new(
        Whole(row, "id"),
        Word(row, "feeder"),
        Utc(row),
        new AlarmTransition(
            StoreNames.Alarm(Word(row, "kind")), Whole(row, "raised") != 0, Number(row, "at_s") ?? 0, Number(row, "pp_mm") / 1e3, Word(row, "words")));

    private static StoredEvent Event(SqliteDataReader row) =>
        new(Whole(row, "id"), Word(row, "feeder"), Utc(row), StoreNames.Event(Word(row, "kind")), Word(row, "text"));

    private static StoredFinding Finding(SqliteDataReader row) => new(
        Whole(row, "id"),
        Word(row, "feeder"),
        new FindingTransition(
            new(
                Word(row, "finding"), Number(row, "confidence"), Word(row, "words"), Word(row, "because").Split('\n'), Word(row, "check_first").Split('\n'),
                row["confirm"] as string, row["tell_apart"] as string),
            Whole(row, "raised") != 0,
            Utc(row)));

    private static long Whole(SqliteDataReader row, string column) => row.GetInt64(row.GetOrdinal(column));

    private static string Word(SqliteDataReader row, string column) => row.GetString(row.GetOrdinal(column));

    private static double? Number(SqliteDataReader row, string column)
    {
        var at = row.GetOrdinal(column);
        return row.IsDBNull(at) ? null : row.GetDouble(at);
    }

    private static DateTimeOffset Utc(SqliteDataReader row) => DateTimeOffset.FromUnixTimeMilliseconds(Whole(row, "utc_ms"));

    private bool Has(string table)
    {
        using var command = connection.CreateCommand();
        command.CommandText = "SELECT count(*) FROM sqlite_master WHERE type = 'table' AND name = $table";
        command.Parameters.AddWithValue("$table", table);
        return (long)command.ExecuteScalar()! > 0;
    }

    private List<T> Read<T>(string sql, DateTimeOffset from, DateTimeOffset to, int most, Func<SqliteDataReader, T> make, string? feeder = null)
    {
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        if (sql.Contains("$from", StringComparison.Ordinal))
        {
            command.Parameters.AddWithValue("$from", from.ToUnixTimeMilliseconds());
            command.Parameters.AddWithValue("$to", to.ToUnixTimeMilliseconds());
            command.Parameters.AddWithValue("$most", most);
        }

        if (feeder is not null)
        {
            command.Parameters.AddWithValue("$feeder", feeder);
        }

        using var rows = command.ExecuteReader();
        var found = new List<T>();
        while (rows.Read())
        {
            found.Add(make(rows));
        }

        return found;
    }
}
