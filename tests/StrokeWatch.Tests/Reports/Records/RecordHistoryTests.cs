using Microsoft.Extensions.Time.Testing;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Outputs.Store;
using StrokeWatch.Reports.Records;
using StrokeWatch.Tests.Reports.Html;
using Xunit;

namespace StrokeWatch.Tests.Reports.Records;

public sealed class RecordHistoryTests : IDisposable
{
    private const string Name = "Cullet feeder";
    private static readonly DateTimeOffset Begin = RecordFiles.Noon.AddDays(-3);
    private readonly FakeTimeProvider clock = new(Begin.AddMinutes(-1));
    private readonly RecordFiles files = new();
    private readonly List<(DateTimeOffset Utc, double Stroke)> written = [];

    public void Dispose() => files.Dispose();

    [Fact]
    public async Task Each_part_of_the_period_has_the_smallest_and_largest_stroke_of_its_windows()
    {
        await Store();
        using var reader = new StoreReader(files.At("store.db"));
        const int parts = 37;
        var width = (long)(RecordFiles.Noon - Begin).TotalMilliseconds / parts + 1;
        var expected = written.GroupBy(window => (int)((window.Utc - Begin).TotalMilliseconds / width))
            .Select(group => (group.Key, group.Min(window => window.Stroke), group.Max(window => window.Stroke), group.LongCount())).OrderBy(column => column.Key).ToList();
        var columns = reader.StrokeColumns(Name, Begin, RecordFiles.Noon, parts);
        Assert.Equal(expected.Select(column => (column.Key, column.Item4)), columns.Select(column => (column.Index, column.Windows)));
        Assert.All(expected.Zip(columns), pair => Assert.Equal((pair.First.Item2, pair.First.Item3), (pair.Second.LeastMetres, pair.Second.MostMetres)));
        Assert.Empty(reader.StrokeColumns("Sand feeder", Begin, RecordFiles.Noon, parts));
        Assert.Equal(written[^1].Utc, reader.LastCounted(Name, Begin, RecordFiles.Noon)!.Utc);
        Assert.Null(reader.LastCounted(Name, Begin.AddDays(-9), Begin));
    }

    [Fact]
    public async Task The_record_draws_the_period_and_lists_its_alarms_and_an_alarm_that_stands_is_a_machine_that_is_not_well()
    {
        await Store();
        var (status, _, errors) = files.Report("record.html", "--store", files.At("store.db"), "--from", "2026-11-23");
        Assert.Equal((1, ""), (status, errors));
        var page = Pages.Parse(File.ReadAllText(files.At("record.html")));
        var drawing = Assert.Single(Pages.Drawings(page, "Stroke over the period"));
        Assert.Equal(2, drawing.Elements("path").Count(path => Pages.Looks(path, "ribbon")));
        Assert.Equal(3, drawing.Elements("path").Count(path => Pages.Looks(path, "sign")));
        Assert.Contains("3 alarms, 1 of which still stands at the end of the period.", page.Value, StringComparison.Ordinal);
        Assert.Contains("(the program began anew)", page.Value, StringComparison.Ordinal);
        Assert.Contains("the last that counts in the store", page.Value, StringComparison.Ordinal);

        // Check-values 5.4: three announcements in a minute chatter; 20 s between them are 3.0 a minute.
        Assert.Contains("Announced 5 times", page.Value, StringComparison.Ordinal);
        Assert.Contains("Chattered: high-stroke (3.0 a minute). Stood for more than a day: sensor-clipped (1.2 days)", page.Value, StringComparison.Ordinal);
        Assert.Contains("There was no flood.", page.Value, StringComparison.Ordinal);

        // A week later nothing of it lies in the period, but the alarm stands on.
        files.Clock.SetUtcNow(RecordFiles.Noon.AddDays(7));
        Assert.Equal(3, files.Report("record.html", "--store", files.At("store.db"), "--from", "2026-11-30").Status);
        Assert.Contains("1 alarm, 1 of which still stands", File.ReadAllText(files.At("record.html")), StringComparison.Ordinal);
    }

    [Fact]
    public void A_start_of_the_program_ends_what_stood_and_what_was_cleared_unseen_came_from_before()
    {
        StoredAlarm Alarm(long id, AlarmKind kind, bool raised, int minute) => new(id, Name, Begin.AddMinutes(minute), new(kind, raised, 0, null, $"{kind}"));
        var alarms = RecordHistory.Pair(
            [Alarm(1, AlarmKind.Strike, true, -10)],
            [
                Alarm(2, AlarmKind.LowStroke, false, 1), Alarm(3, AlarmKind.OverStroke, true, 2), Alarm(4, AlarmKind.OverStroke, false, 4),
                Alarm(5, AlarmKind.HighStroke, true, 12), Alarm(6, AlarmKind.Strike, true, 20),
            ],
            [Begin.AddMinutes(10), Begin.AddMinutes(15)]);
        Assert.Equal(
        [
            new(AlarmKind.Strike, Begin.AddMinutes(-10), Begin.AddMinutes(10), true, "Strike"),
            new(AlarmKind.LowStroke, null, Begin.AddMinutes(1), false, "LowStroke"),
            new(AlarmKind.OverStroke, Begin.AddMinutes(2), Begin.AddMinutes(4), false, "OverStroke"),
            new(AlarmKind.HighStroke, Begin.AddMinutes(12), Begin.AddMinutes(15), true, "HighStroke"),
            new(AlarmKind.Strike, Begin.AddMinutes(20), null, false, "Strike"),
        ],
        alarms);
    }

    /// <summary>Writes three days: two runs with a standstill between them, one alarm cleared, one ended by a new start, one that stands.</summary>
    private async Task Store()
    {
        var options = new StoreOptions { Path = files.At("store.db"), Feeder = Name, BallastBytes = 0 };
        var random = new Random(7);
        using (var store = new SqliteStore(options, clock))
        {
            await Soon(store.Event(StoreEventKind.Start, "start"));
            await Run(store, TimeSpan.FromHours(20), random);
            await Soon(store.Alarm(new(AlarmKind.HighStroke, true, 0, 1.6e-3, "High.")));
            clock.Advance(TimeSpan.FromHours(1));
            await Soon(store.Alarm(new(AlarmKind.HighStroke, false, 0, 1.5e-3, "No longer high.")));
            await Soon(store.Alarm(new(AlarmKind.LowStroke, true, 0, 1.3e-3, "Low.")));
            var still = store.Window(new() { StartSeconds = 0, LengthSeconds = 1, Quality = WindowQuality.Good, Motion = MotionState.Stopped, StrokeMetres = 1e-6 }, Verdict.Stopped);
            await Soon(store.Event(StoreEventKind.Stop, "stopped in order"));
            await Soon(still);
        }

        clock.Advance(TimeSpan.FromHours(18));
        using (var store = new SqliteStore(options, clock))
        {
            await Soon(store.Event(StoreEventKind.Start, "start"));
            await Run(store, TimeSpan.FromHours(20), random);
            await Soon(store.Alarm(new(AlarmKind.OverStroke, true, 0, 1.7e-3, "Over-stroke.")));
            var now = clock.GetUtcNow();
            await Soon(store.Journal(Step(AlarmKind.SensorClipped, raised: true, now.AddHours(-30))));

            // The program began anew 20 h ago and found it again.
            await Soon(store.Journal(Step(AlarmKind.SensorClipped, raised: true, now.AddHours(-20).AddMinutes(5))));
            await Soon(store.Journal(Step(AlarmKind.SensorClipped, raised: false, now.AddHours(-1))));
            for (var i = 0; i < 3; i++)
            {
                await Soon(store.Journal(Step(AlarmKind.HighStroke, raised: true, now.AddSeconds((20 * i) - 900))));
                await Soon(store.Journal(Step(AlarmKind.HighStroke, raised: false, now.AddSeconds((20 * i) - 890))));
            }
        }
    }

    private static AlarmStep Step(AlarmKind kind, bool raised, DateTimeOffset at) => new(
        new(kind), raised ? AlarmAct.Activate : AlarmAct.Clear, AlarmState.Normal, raised ? AlarmState.Unacknowledged : AlarmState.Normal, AlarmState.Normal, at, "measurement", "", null);

    private async Task Run(SqliteStore store, TimeSpan length, Random random)
    {
        var windows = new List<Task<bool>>();
        for (var i = 0; i < 150; i++)
        {
            clock.Advance(length / 150);
            var stroke = (1400 + random.Next(100)) / 1e6;
            written.Add((clock.GetUtcNow().AddSeconds(-1), stroke * 1e3 / 1e3));
            windows.Add(store.Window(new() { StartSeconds = i, LengthSeconds = 1, Quality = WindowQuality.Good, Motion = MotionState.Running, StrokeMetres = stroke, UncertaintyMetres = 1e-5 }, Verdict.InBand));
        }

        var note = store.Event(StoreEventKind.Configuration, "all of them");
        await Soon(note);
        Assert.All(await Task.WhenAll(windows).WaitAsync(TimeSpan.FromSeconds(30)), Assert.True);
    }

    private static async Task Soon(Task<bool> promise) => Assert.True(await promise.WaitAsync(TimeSpan.FromSeconds(30)));
}
