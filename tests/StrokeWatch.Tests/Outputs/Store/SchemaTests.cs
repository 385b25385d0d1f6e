using Microsoft.Data.Sqlite;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Assessment.Stretches;
using StrokeWatch.Assessment.Watching;
using StrokeWatch.Outputs.Store;
using StrokeWatch.Samples.Blocks;
using Xunit;
using static StrokeWatch.Tests.Outputs.Store.StoreFolder;

namespace StrokeWatch.Tests.Outputs.Store;

/// <summary>Stretches and findings, which came with the second version of the tables, and files of the first.</summary>
public sealed class SchemaTests : IDisposable
{
    private static readonly DateTimeOffset Ever = new(2100, 1, 1, 0, 0, 0, TimeSpan.Zero);

    /// <summary>The tables as the first version of the program wrote them, word for word, with a row in each.</summary>
    private const string First = """
        CREATE TABLE meta (key TEXT PRIMARY KEY, value TEXT NOT NULL) WITHOUT ROWID;
        CREATE TABLE window (
            id INTEGER PRIMARY KEY AUTOINCREMENT, feeder TEXT NOT NULL, utc_ms INTEGER NOT NULL,
            start_s REAL NOT NULL, length_s REAL NOT NULL,
            pp_mm REAL, fundamental_pp_mm REAL, uncertainty_mm REAL, noise_mm REAL, line_angle_deg REAL, ellipse_ratio REAL,
            frequency_hz REAL, clock_error_ppm REAL, quality TEXT NOT NULL, motion TEXT NOT NULL, verdict TEXT NOT NULL,
            strike INTEGER NOT NULL, strike_score REAL, clipped_samples INTEGER NOT NULL, reason TEXT);
        CREATE INDEX window_utc ON window (utc_ms);
        CREATE TABLE alarm (
            id INTEGER PRIMARY KEY AUTOINCREMENT, feeder TEXT NOT NULL, utc_ms INTEGER NOT NULL,
            at_s REAL NOT NULL, kind TEXT NOT NULL, raised INTEGER NOT NULL, pp_mm REAL, words TEXT NOT NULL);
        CREATE INDEX alarm_utc ON alarm (utc_ms);
        CREATE TABLE event (
            id INTEGER PRIMARY KEY AUTOINCREMENT, feeder TEXT NOT NULL, utc_ms INTEGER NOT NULL, kind TEXT NOT NULL, text TEXT NOT NULL);
        CREATE INDEX event_utc ON event (utc_ms);
        INSERT INTO meta VALUES ('schema_version', '1');
        INSERT INTO window VALUES (7, 'Sand feeder', 1774785600000, 1.5, 0.5, 1.61, 1.6, 0.03, 0.001, 20, 0.02, 50, 10, 'good', 'running', 'in-band', 0, 0.1, 0, NULL);
        INSERT INTO alarm VALUES (3, 'Sand feeder', 1774785600000, 2, 'over-stroke', 1, 1.95, 'Over-stroke: stop the feeder.');
        INSERT INTO event VALUES (4, 'Sand feeder', 1774785600000, 'start', 'started');
        """;

    private readonly StoreFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public async Task A_file_of_the_first_version_keeps_its_rows_and_takes_stretches_and_findings()
    {
        folder.Sql(First);
        using (var before = new StoreReader(folder.Database))
        {
            Assert.Empty(before.NewestStretches("Sand feeder", 10));
            Assert.Empty(before.Findings(DateTimeOffset.UnixEpoch, Ever));
            Assert.Empty(before.Captures(DateTimeOffset.UnixEpoch, Ever));
        }

        using (var store = new SqliteStore(folder.Options, folder.Clock))
        {
            Assert.True(await Soon(store.Stretch(Stretch(0))));
            Assert.True(await Soon(store.Finding(new(Finding, true, Noon))));
            Assert.True(await Soon(store.Capture(Waveform)));
        }

        using var reader = new StoreReader(folder.Database);
        Assert.Null(reader.IntegrityCheck());
        Assert.Equal(7, Assert.Single(reader.Windows(DateTimeOffset.UnixEpoch, Ever)).Id);
        Assert.Equal(3, Assert.Single(reader.Alarms(DateTimeOffset.UnixEpoch, Ever)).Id);
        Assert.Contains(reader.Events(DateTimeOffset.UnixEpoch, Ever), row => row is { Id: 4, Text: "started" });
        Assert.Single(reader.NewestStretches("Sand feeder", 10));
        Assert.Single(reader.Findings(DateTimeOffset.UnixEpoch, Ever));
        Assert.Equal(Waveform, Assert.Single(reader.Captures(DateTimeOffset.UnixEpoch, Ever)));
        Assert.Equal("5", Scalar("SELECT value FROM meta WHERE key = 'schema_version'"));
    }

    [Fact]
    public async Task Stretches_come_back_newest_last_each_with_its_own_features()
    {
        using (var store = new SqliteStore(folder.Options, folder.Clock))
        {
            for (var i = 0; i < 5; i++)
            {
                Assert.True(await Soon(store.Stretch(Stretch(i))));
            }

            Assert.True(await Soon(store.Stretch(new(Noon.AddHours(9), 12, StretchEnd.Over, true, new() { Reason = "the sensor clips" }))));
        }

        using var reader = new StoreReader(folder.Database);
        Assert.Empty(reader.NewestStretches("Another feeder", 10));
        var read = reader.NewestStretches("Sand feeder", 3).Select(row => row.Stretch).ToList();
        Assert.Equal([Noon.AddHours(3), Noon.AddHours(4), Noon.AddHours(9)], read.Select(stretch => stretch.From));
        Assert.Equal([1.503e-3, 1.504e-3], read.Take(2).Select(stretch => stretch.Features.Stroke!.Value), (one, other) => Math.Abs(one - other) < 1e-15);
        Assert.Equal((StretchEnd.Stop, 3590.0, false, 7000), (read[0].Ended, read[0].LengthSeconds, read[0].Alarm, read[0].Features.SteadyWindows));
        Assert.Equal((StretchEnd.Over, true, "the sensor clips"), (read[2].Ended, read[2].Alarm, read[2].Features.Reason));
        Assert.Null(read[2].Features.Stroke);
        Assert.Null(read[0].Features.NaturalHz);
        Assert.Equal(52.4, read[1].Features.NaturalHz);
    }

    [Fact]
    public async Task The_newest_steps_of_a_period_are_read_however_many_lie_before_and_what_held_at_its_beginning()
    {
        AlarmId high = new(AlarmKind.HighStroke);
        AlarmStep Step(AlarmAct act, int seconds) => new(high, act, AlarmState.Normal, AlarmState.Unacknowledged, AlarmState.Unacknowledged, Noon.AddSeconds(seconds), "measurement", "", null);
        AlarmStep[] steps = [Step(AlarmAct.Activate, 0), Step(AlarmAct.Clear, 1), Step(AlarmAct.Activate, 2), Step(AlarmAct.Acknowledge, 3), Step(AlarmAct.Clear, 11), Step(AlarmAct.Activate, 12), Step(AlarmAct.Clear, 13)];
        using (var store = new SqliteStore(folder.Options, folder.Clock))
        {
            foreach (var step in steps)
            {
                Assert.True(await Soon(store.Journal(step)));
            }
        }

        using var reader = new StoreReader(folder.Database);
        Assert.Equal([steps[2], .. steps[4..]], reader.LoadSteps("Sand feeder", Noon.AddSeconds(10), Ever));
        Assert.Equal([steps[2], .. steps[5..]], reader.LoadSteps("Sand feeder", Noon.AddSeconds(10), Ever, most: 2));
        Assert.Empty(reader.LoadSteps("Another feeder", Noon, Ever));
    }

    [Fact]
    public async Task Steps_of_alarms_come_back_as_they_were_written_and_the_last_of_each_can_be_asked_for()
    {
        AlarmId front = new(AlarmKind.SensorLost, SensorPlace.Front), high = new(AlarmKind.HighStroke);
        AlarmStep[] steps =
        [
            new(front, AlarmAct.Activate, AlarmState.Normal, AlarmState.Unacknowledged, AlarmState.Unacknowledged, Noon, "measurement", "Sensor front lost.", null),
            new(high, AlarmAct.Shelve, AlarmState.Normal, AlarmState.Shelved, AlarmState.Normal, Noon.AddSeconds(1), "Engineer \"Ö\"", "", Noon.AddHours(2)),
            new(front, AlarmAct.Acknowledge, AlarmState.Unacknowledged, AlarmState.Acknowledged, AlarmState.Acknowledged, Noon.AddSeconds(2), "Operator", "seen", null),
        ];
        using (var store = new SqliteStore(folder.Options, folder.Clock))
        {
            foreach (var step in steps)
            {
                Assert.True(await Soon(store.Journal(step)));
            }
        }

        // A word that a later version writes is left out, not misread.
        folder.Sql("INSERT INTO alarm_journal SELECT NULL, feeder, utc_ms, alarm, 'escalate', state_from, state_to, beneath, by, words, until_utc_ms FROM alarm_journal WHERE id = 2");
        using var reader = new StoreReader(folder.Database);
        Assert.Equal(steps, reader.Journal(DateTimeOffset.UnixEpoch, Ever).Select(row => row.Step));
        Assert.Equal([steps[2]], reader.LastSteps("Sand feeder"));
        Assert.Empty(reader.LastSteps("Another feeder"));
        Assert.Equal(steps, reader.LastSteps("Sand feeder", 2));
    }

    [Fact]
    public async Task A_file_of_the_third_version_is_taken_over_and_a_capture_s_removal_is_noted()
    {
        using (new SqliteStore(folder.Options, folder.Clock))
        {
        }

        folder.Sql("DROP TABLE capture; UPDATE meta SET value = '3' WHERE key = 'schema_version'");
        using (var store = new SqliteStore(folder.Options, folder.Clock))
        {
            Assert.True(await Soon(store.Capture(Waveform)));
            Assert.True(await Soon(store.Capture(Waveform with { Id = new(AlarmKind.Strike), Whole = false })));
            Assert.True(await Soon(store.Capture(Waveform with { File = "other.wav" })));
            folder.Clock.Advance(TimeSpan.FromHours(1));
            Assert.True(await Soon(store.CaptureRemoved(Waveform.File)));
        }

        using var reader = new StoreReader(folder.Database);
        var removed = Noon.AddHours(1);
        Assert.Equal(
            [Waveform with { Removed = removed }, Waveform with { Id = new(AlarmKind.Strike), Whole = false, Removed = removed }, Waveform with { File = "other.wav" }],
            reader.Captures(DateTimeOffset.UnixEpoch, Ever));
        Assert.Equal("5", Scalar("SELECT value FROM meta WHERE key = 'schema_version'"));
    }

    [Fact]
    public async Task A_finding_comes_back_word_for_word()
    {
        using (var store = new SqliteStore(folder.Options, folder.Clock))
        {
            Assert.True(await Soon(store.Finding(new(Finding, true, Noon))));
            Assert.True(await Soon(store.Finding(new(Finding with { Confidence = null, Confirm = null, TellApart = null }, false, Noon.AddHours(2)))));
        }

        using var reader = new StoreReader(folder.Database);
        var read = reader.Findings(DateTimeOffset.UnixEpoch, Ever).Select(row => row.Transition).ToList();
        Assert.Equal([(true, Noon), (false, Noon.AddHours(2))], read.Select(row => (row.Raised, row.At)));
        Assert.Equal((Finding.Id, Finding.Confidence, Finding.Words, Finding.Confirm, Finding.TellApart), (read[0].Finding.Id, read[0].Finding.Confidence, read[0].Finding.Words, read[0].Finding.Confirm, read[0].Finding.TellApart));
        Assert.Equal(Finding.Because, read[0].Finding.Because);
        Assert.Equal(Finding.CheckFirst, read[0].Finding.CheckFirst);
        Assert.Equal((null, null, null), (read[1].Finding.Confidence, read[1].Finding.Confirm, read[1].Finding.TellApart));
    }

    private static WatchFinding Finding { get; } = new("leaf-cracked", 0.93, "A leaf is cracked.", ["It fell.", "It rose; \"so\"."], ["Look.", "Isolate.", "Feel."], "A dye test.", "Coast down.");

    private static AlarmWaveform Waveform { get; } = new(new(AlarmKind.SensorLost, SensorPlace.Front), Noon, "20260329T120000Z-sensor-lost-front.wav", Noon.AddSeconds(-10), 30.25, 17, true);

    private static Stretch Stretch(int hour) => new(
        Noon.AddHours(hour), 3590, StretchEnd.Stop, false, new CaptureFeatures { Stroke = (1.5 + (0.001 * hour)) * 1e-3, NaturalHz = hour == 4 ? 52.4 : null, SteadyWindows = 7000 });

    private string? Scalar(string text)
    {
        using var connection = Open();
        using var command = connection.CreateCommand();
        command.CommandText = text;
        return (string?)command.ExecuteScalar();
    }

    private SqliteConnection Open()
    {
        var connection = new SqliteConnection($"Data Source={folder.Database};Pooling=false");
        connection.Open();
        return connection;
    }
}
