using Microsoft.Data.Sqlite;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Outputs.Store;
using Xunit;
using static StrokeWatch.Tests.Outputs.Store.StoreFolder;

namespace StrokeWatch.Tests.Outputs.Store;

public sealed class SqliteStoreTests : IDisposable
{
    private static readonly DateTimeOffset Past = DateTimeOffset.UnixEpoch;
    private static readonly DateTimeOffset Future = new(2100, 1, 1, 0, 0, 0, TimeSpan.Zero);
    private readonly StoreFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public async Task What_was_written_is_read_back()
    {
        var reading = new WindowReading
        {
            StartSeconds = 12.25,
            LengthSeconds = 0.5,
            Quality = WindowQuality.Good,
            Motion = MotionState.Running,
            FrequencyHz = 50.02,
            ClockError = -2.5e-5,
            StrokeMetres = 1.6512345678e-3,
            FundamentalMetres = 1.64e-3,
            UncertaintyMetres = 3.1e-5,
            NoiseMetres = 2e-7,
            LineAngleDegrees = -24.5,
            EllipseRatio = 0.03,
            Strike = true,
            StrikeScore = 1.75,
            ClippedSamples = 3,
        };
        using (var store = new SqliteStore(folder.Options, folder.Clock))
        {
            Assert.True(await Soon(store.Event(StoreEventKind.Start, "started")));
            var window = store.Window(reading, Verdict.OverStroke);
            var alarm = store.Alarm(new AlarmTransition(AlarmKind.Strike, true, 12.75, 1.65e-3, "Strike: stop the feeder."));
            Assert.True(await Soon(window));
            Assert.True(await Soon(alarm));
            Assert.Equal(StoreState.Working, store.Health.State);
            Assert.Equal((1L, 2L), (store.Health.Windows, store.Health.Notes));
        }

        using var reader = new StoreReader(folder.Database);
        var read = Assert.Single(reader.Windows(Past, Future));
        Assert.Equal("Sand feeder", read.Feeder);
        Assert.Equal(Noon.AddSeconds(-0.5), read.Utc);
        Assert.Equal(Verdict.OverStroke, read.Verdict);
        Assert.Equal(read, reader.LastWindow());

        // Lengths pass through millimetres and may come back one bit off.
        Assert.Equal(reading.StrokeMetres!.Value, read.Reading.StrokeMetres!.Value, 15);
        Assert.Equal(reading.ClockError!.Value, read.Reading.ClockError!.Value, 15);
        Assert.Equal(reading, read.Reading with
        {
            StrokeMetres = reading.StrokeMetres,
            FundamentalMetres = reading.FundamentalMetres,
            UncertaintyMetres = reading.UncertaintyMetres,
            NoiseMetres = reading.NoiseMetres,
            ClockError = reading.ClockError,
        });
        Assert.Equal(1.64, read.Reading.FundamentalMetres!.Value * 1e3, 12);
        Assert.Equal(0.031, read.Reading.UncertaintyMetres!.Value * 1e3, 12);
        Assert.Equal(2e-4, read.Reading.NoiseMetres!.Value * 1e3, 12);
        var alarmRead = Assert.Single(reader.Alarms(Past, Future)).Transition;
        Assert.Equal((AlarmKind.Strike, true, 12.75, "Strike: stop the feeder."), (alarmRead.Kind, alarmRead.Raised, alarmRead.AtSeconds, alarmRead.Words));
        Assert.Equal((StoreEventKind.Start, "started"), Assert.Single(reader.Events(Past, Future)) is { } e ? (e.Kind!.Value, e.Text) : default);
        Assert.Null(reader.IntegrityCheck());
    }

    [Fact]
    public async Task What_was_not_measured_is_null_with_its_reason_and_never_zero()
    {
        using (var store = new SqliteStore(folder.Options, folder.Clock))
        {
            var blank = Reading(1, strokeMetres: null) with { Quality = WindowQuality.Noisy, Reason = "noise hides the stroke", FrequencyHz = double.NaN };
            var window = store.Window(blank, Verdict.Unmeasurable);
            Assert.True(await Soon(store.Flush()));
            Assert.True(await Soon(window));
        }

        using var connection = new SqliteConnection($"Data Source={folder.Database};Pooling=False");
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = "SELECT count(*) FROM window WHERE pp_mm IS NULL AND frequency_hz IS NULL AND strike_score IS NULL AND reason = 'noise hides the stroke' AND verdict = 'unmeasurable'";
        Assert.Equal(1L, command.ExecuteScalar());
    }

    [Fact]
    public async Task Windows_wait_for_their_commit_and_alarms_do_not()
    {
        using var store = new SqliteStore(folder.Options, folder.Clock);
        Assert.True(await Soon(store.Event(StoreEventKind.Start, "started")));
        var window = store.Window(Reading(0), Verdict.InBand);
        folder.Clock.Advance(TimeSpan.FromSeconds(9));
        await Task.Delay(100);
        Assert.False(window.IsCompleted);
        folder.Clock.Advance(TimeSpan.FromSeconds(1));
        Assert.True(await Soon(window));

        var second = store.Window(Reading(1), Verdict.InBand);
        Assert.True(await Soon(store.Alarm(Alarm(1.5))));
        Assert.True(await Soon(second));
    }

    [Fact]
    public async Task The_first_window_after_a_start_may_be_asked_for_at_once_and_the_second_waits()
    {
        using var store = new SqliteStore(folder.Options with { FirstWindowAtOnce = true }, folder.Clock);
        Assert.True(await Soon(store.Window(Reading(0), Verdict.InBand)));
        var second = store.Window(Reading(1), Verdict.InBand);
        await Task.Delay(100);
        Assert.False(second.IsCompleted);
    }

    [Fact]
    public async Task Two_hundred_windows_are_committed_before_their_time()
    {
        using var store = new SqliteStore(folder.Options, folder.Clock);
        await Soon(store.Event(StoreEventKind.Start, "started"));
        var rows = Enumerable.Range(0, 200).Select(n => store.Window(Reading(n), Verdict.InBand)).ToList();
        Assert.All(await Soon(Task.WhenAll(rows)), Assert.True);
    }

    [Fact]
    public async Task Closing_writes_what_waits_and_leaves_one_file()
    {
        Task<bool> window;
        using (var store = new SqliteStore(folder.Options, folder.Clock))
        {
            window = store.Window(Reading(0), Verdict.InBand);
        }

        Assert.True(await Soon(window));
        Assert.Equal(["store.db"], Directory.GetFiles(folder.Folder).Select(Path.GetFileName));
    }

    [SkippableFact]
    public async Task The_file_and_its_journal_are_not_for_everyone()
    {
        Skip.If(OperatingSystem.IsWindows(), "Windows has no file modes.");
        using var store = new SqliteStore(folder.Options, folder.Clock);
        await Soon(store.Event(StoreEventKind.Start, "started"));
        const UnixFileMode Allowed = UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.GroupRead;
        Assert.All(Directory.GetFiles(folder.Folder), f => Assert.Equal((UnixFileMode)0, new FileInfo(f).UnixFileMode & ~Allowed));
        Assert.Equal(3, Directory.GetFiles(folder.Folder).Length);
    }

    [Fact]
    public async Task Windows_past_their_days_are_deleted_and_alarms_stay()
    {
        var options = folder.Options with { KeepDays = 30 };
        using (var store = new SqliteStore(options, folder.Clock))
        {
            _ = store.Window(Reading(0), Verdict.InBand);
            await Soon(store.Alarm(Alarm(0.5)));
        }

        using (var store = new SqliteStore(options, folder.Clock))
        {
            // Days count that the store has lived, not those between two runs.
            await Soon(store.Event(StoreEventKind.Start, "started"));
            folder.Clock.Advance(TimeSpan.FromDays(29));
            _ = store.Window(Reading(1), Verdict.InBand);
            await Soon(store.Flush());
            folder.Clock.Advance(TimeSpan.FromDays(1.5));
            for (var i = 0; i < 3; i++)
            {
                folder.Clock.Advance(TimeSpan.FromSeconds(10));
                await Soon(store.Event(StoreEventKind.Configuration, "read again"));
            }
        }

        using var reader = new StoreReader(folder.Database);
        Assert.Equal(1, Assert.Single(reader.Windows(Past, Future)).Reading.StartSeconds);
        Assert.Single(reader.Alarms(Past, Future));
    }

    [Fact]
    public async Task Windows_between_two_instants_are_read_in_order()
    {
        using var store = new SqliteStore(folder.Options, folder.Clock);
        for (var n = 0; n < 10; n++)
        {
            folder.Clock.Advance(TimeSpan.FromSeconds(1));
            _ = store.Window(Reading(n), Verdict.InBand);
        }

        await Soon(store.Flush());
        using var reader = new StoreReader(folder.Database);
        Assert.Equal([3.0, 4, 5], reader.Windows(Noon.AddSeconds(3), Noon.AddSeconds(6)).Select(w => w.Reading.StartSeconds));
        Assert.Equal([3.0, 4], reader.Windows(Noon.AddSeconds(3), Noon.AddSeconds(6), most: 2).Select(w => w.Reading.StartSeconds));
        Assert.Equal(9, reader.LastWindow()!.Reading.StartSeconds);
    }
}
