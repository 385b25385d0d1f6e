using System.Diagnostics;
using Microsoft.Data.Sqlite;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Outputs.Store;
using Xunit;
using static StrokeWatch.Tests.Outputs.Store.StoreFolder;

namespace StrokeWatch.Tests.Outputs.Store;

public sealed class StoreTroubleTests : IDisposable
{
    private static readonly DateTimeOffset Past = DateTimeOffset.UnixEpoch;
    private static readonly DateTimeOffset Future = new(2100, 1, 1, 0, 0, 0, TimeSpan.Zero);
    private readonly StoreFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public async Task A_file_that_is_no_database_is_moved_aside_and_an_event_says_so()
    {
        File.WriteAllText(folder.Database, "This is a shopping list and it is longer than a database's head: " + new string('x', 4096));
        using (var store = new SqliteStore(folder.Options, folder.Clock))
        {
            Assert.True(await Soon(store.Event(StoreEventKind.Start, "started")));
        }

        AssertReplaced();
    }

    [Fact]
    public async Task A_damaged_database_is_moved_aside_and_an_event_says_so()
    {
        using (var store = new SqliteStore(folder.Options, folder.Clock))
        {
            for (var n = 0; n < 2000; n++)
            {
                _ = store.Window(Reading(n), Verdict.InBand);
            }

            await Soon(store.Flush());
        }

        using (var file = new FileStream(folder.Database, FileMode.Open))
        {
            file.Seek(file.Length / 2, SeekOrigin.Begin);
            file.Write(Enumerable.Repeat((byte)0xa5, 20_000).ToArray());
        }

        using (var store = new SqliteStore(folder.Options, folder.Clock))
        {
            Assert.True(await Soon(store.Event(StoreEventKind.Start, "started")));
        }

        AssertReplaced();
    }

    [Fact]
    public async Task A_database_of_a_later_version_is_left_alone_and_the_trouble_is_said()
    {
        using (var store = new SqliteStore(folder.Options, folder.Clock))
        {
            await Soon(store.Event(StoreEventKind.Start, "started"));
        }

        folder.Sql("UPDATE meta SET value = '7' WHERE key = 'schema_version'");
        using (var store = new SqliteStore(folder.Options, folder.Clock))
        {
            var late = store.Alarm(Alarm(1));
            await folder.Until(store, h => h.State == StoreState.Trouble);
            Assert.Contains("has schema 7, this program knows 5", store.Health.Trouble, StringComparison.Ordinal);
            Assert.False(late.IsCompleted);
        }

        Assert.Single(Directory.GetFiles(folder.Folder));
    }

    [Fact]
    public async Task A_missing_folder_is_trouble_until_it_is_there_and_then_everything_is_written()
    {
        var options = folder.Options with { Path = Path.Combine(folder.Folder, "later", "store.db") };
        using var store = new SqliteStore(options, folder.Clock);
        var window = store.Window(Reading(0), Verdict.InBand);
        var alarm = store.Alarm(Alarm(0.5));
        await folder.Until(store, h => h.State == StoreState.Trouble);
        Assert.Contains("is missing: create it", store.Health.Trouble, StringComparison.Ordinal);
        Assert.False(alarm.IsCompleted);
        Directory.CreateDirectory(Path.GetDirectoryName(options.Path)!);
        await folder.Until(store, h => h.State == StoreState.Working);
        Assert.True(await Soon(window));
        Assert.True(await Soon(alarm));
    }

    [Fact]
    public async Task Another_programs_lock_is_trouble_measurement_never_waits_and_drops_are_counted_and_noted()
    {
        var options = folder.Options with { MostWindows = 50, MostNotes = 5 };
        using var store = new SqliteStore(options, folder.Clock);
        await Soon(store.Event(StoreEventKind.Start, "started"));
        using (var other = new SqliteConnection($"Data Source={folder.Database};Pooling=False"))
        {
            other.Open();
            using var transaction = other.BeginTransaction(deferred: false);
            var watch = Stopwatch.StartNew();
            var windows = Enumerable.Range(0, 80).Select(n => store.Window(Reading(n), Verdict.InBand)).ToList();
            var alarms = Enumerable.Range(0, 7).Select(n => store.Alarm(Alarm(n))).ToList();
            Assert.True(watch.ElapsedMilliseconds < 500, $"taking 87 rows took {watch.ElapsedMilliseconds} ms");
            Assert.All(windows.Skip(50), w => Assert.False(w.Result));
            Assert.All(alarms.Skip(5), a => Assert.False(a.Result));
            await folder.Until(store, h => h.State == StoreState.Trouble);
            Assert.Contains("locked by another program", store.Health.Trouble, StringComparison.Ordinal);
            Assert.Equal((30L, 2L, 55), (store.Health.DroppedWindows, store.Health.DroppedNotes, store.Health.Waiting));

            // These are lost while the trouble is known, and the event after it names them.
            Assert.False(await store.Window(Reading(99), Verdict.InBand));
            Assert.False(await store.Alarm(Alarm(99)));
            transaction.Rollback();
        }

        await folder.Until(store, h => h is { State: StoreState.Working, Waiting: 0 });
        using var reader = new StoreReader(folder.Database);
        Assert.Equal(50, reader.Windows(Past, Future).Count);
        Assert.Equal(5, reader.Alarms(Past, Future).Count);
        var events = reader.Events(Past, Future);
        Assert.Contains(events, e => e.Kind == StoreEventKind.StoreTrouble && e.Text.Contains("locked by another program", StringComparison.Ordinal));
        Assert.Contains(events, e => e.Kind == StoreEventKind.StoreGap && e.Text.StartsWith("31 windows and 3 alarms", StringComparison.Ordinal));
        Assert.True(store.Health.LastCommit > Noon);
    }

    private void AssertReplaced()
    {
        var aside = folder.Database + ".broken-20260329T120000Z";
        Assert.True(File.Exists(aside), "the broken file must be kept");
        using var reader = new StoreReader(folder.Database);
        Assert.Null(reader.IntegrityCheck());
        Assert.Contains(reader.Events(Past, Future), e => e.Kind == StoreEventKind.StoreReplaced && e.Text.Contains(aside, StringComparison.Ordinal));
    }
}
