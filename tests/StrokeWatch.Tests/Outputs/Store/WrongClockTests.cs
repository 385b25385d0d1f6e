using Microsoft.Data.Sqlite;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Outputs.Store;
using Xunit;
using static StrokeWatch.Tests.Outputs.Store.StoreFolder;

namespace StrokeWatch.Tests.Outputs.Store;

/// <summary>What is kept, and for how long, while the computer's date is years off.</summary>
public sealed class WrongClockTests : IDisposable
{
    private static readonly TimeSpan Years = TimeSpan.FromDays(9 * 365);
    private readonly StoreFolder folder = new();
    private readonly WrongClock clock;
    private int next;

    public WrongClockTests() => clock = new(folder.Clock);

    private StoreOptions Options => folder.Options with { KeepDays = 30, NoteClock = true, NoteInterruption = true };

    public void Dispose() => folder.Dispose();

    [Fact]
    public async Task A_date_years_ahead_back_in_1970_and_right_again_deletes_nothing_before_its_days_are_lived()
    {
        var unset = DateTimeOffset.UnixEpoch.AddMinutes(1) - Noon;
        await Live(TimeSpan.Zero, 2);
        await Live(Years, 2);
        await Live(unset, 2);
        await Live(TimeSpan.Zero, 2);
        using (var store = new SqliteStore(Options, clock))
        {
            // The same without a restart between.
            foreach (var offset in (TimeSpan[])[Years, unset, TimeSpan.Zero, -Years, TimeSpan.Zero])
            {
                clock.Offset = offset;
                await Live(store, 2);
            }
        }

        Assert.Equal(Enumerable.Range(0, 18), Kept());

        // 37 days are lived in the end: the first seven lie 30 back, those that 1970 stamped too. What is past is dropped once a day, and an hour a run may not be counted.
        await Live(Years, 19);
        var kept = Kept();
        Assert.InRange(kept[0], 5, 7);
        Assert.Equal(Enumerable.Range(kept[0], 37 - kept[0]), kept);
    }

    [Fact]
    public async Task What_is_odd_about_the_date_is_noted_once_with_both_dates()
    {
        clock.Offset = DateTimeOffset.UnixEpoch.AddMinutes(1) - Noon;
        using (var store = new SqliteStore(Options, clock))
        {
            await Live(store, 1);
            clock.Offset = TimeSpan.Zero;
            await Live(store, 1);
            clock.Offset = TimeSpan.FromHours(-5);
            await Live(store, 1);
            clock.Offset += TimeSpan.FromSeconds(20);
            await Live(store, 1);
        }

        await Live(Years, 1);
        await Live(TimeSpan.Zero, 1);
        string[] words = [.. Events().Where(stored => stored.Kind == StoreEventKind.Clock).OrderBy(stored => stored.Id).Select(stored => stored.Text)];
        Assert.Equal(5, words.Length);
        Assert.StartsWith("the computer's clock stands at 1970-01-01T00:01:", words[0], StringComparison.Ordinal);
        Assert.Contains("has not been set yet", words[0], StringComparison.Ordinal);
        Assert.Matches("set forward by 20541 days, from 1970-01-02T00:.* to 2026-03-30T12:", words[1]);
        Assert.Matches("set back by 5 h 0 min 0 s, from 2026-03-31T12:.* to 2026-03-31T07:", words[2]);
        Assert.Matches("stands at 2035-.*, 328. days after the newest row here: so long nothing ran, or the clock is wrong", words[3]);
        Assert.Matches("stands at 2026-04-03.*, earlier than the newest row here, 2035-", words[4]);
    }

    [Fact]
    public async Task A_clock_that_is_right_is_no_matter_of_note()
    {
        await Live(TimeSpan.Zero, 3);
        folder.Clock.Advance(TimeSpan.FromDays(100));
        await Live(TimeSpan.Zero, 3);
        Assert.DoesNotContain(Events(), stored => stored.Kind == StoreEventKind.Clock);
    }

    [Fact]
    public async Task A_board_that_is_cut_off_every_twenty_minutes_still_drops_what_is_past_its_days()
    {
        // The store never lives an hour, so that only what its windows measured can tell how long it ran.
        for (var run = 0; run < 90; run++)
        {
            using var store = new SqliteStore(Options with { KeepDays = 1 }, clock);
            _ = store.Window(Reading(next++) with { LengthSeconds = 1200 }, Verdict.InBand);
            await Soon(store.Flush());
            await Soon(store.Event(StoreEventKind.Configuration, "a commit after which is looked"));
        }

        // 72 of them are a day; the one that began before the day did may be there still.
        Assert.InRange(Kept().Count, 72, 74);
        Assert.Equal(89, Kept()[^1]);
    }

    [Fact]
    public async Task A_file_of_an_earlier_version_keeps_a_day_of_its_windows_whatever_dates_they_carry()
    {
        using (var store = new SqliteStore(Options, clock))
        {
            await Soon(store.Event(StoreEventKind.Start, "a file"));
        }

        folder.Sql("""
            DROP TABLE lived; UPDATE meta SET value = '4' WHERE key = 'schema_version';
            WITH RECURSIVE n (i) AS (SELECT 0 UNION ALL SELECT i + 1 FROM n WHERE i < 189999)
            INSERT INTO window (feeder, utc_ms, start_s, length_s, quality, motion, verdict, strike, clipped_samples) SELECT 'Sand feeder', 60000 + i, i, 0.5, 'good', 'running', 'in-band', 0, 0 FROM n;
            """);
        using (var store = new SqliteStore(Options with { KeepDays = 1 }, clock))
        {
            for (var commit = 0; commit < 8; commit++)
            {
                await Soon(store.Event(StoreEventKind.Configuration, "a commit after which is looked"));
            }
        }

        // A day is 172 800 of them; marks stand an hour apart.
        var kept = Number("SELECT count(*) FROM window");
        Assert.InRange(kept, 172_800, 172_800 + 7200);
        Assert.Equal(190_000, Number("SELECT max(id) FROM window"));
        Assert.Equal(kept, 190_001 - Number("SELECT min(id) FROM window"));
    }

    /// <summary>Runs a store of its own for so many days, one window a day, the date so much off.</summary>
    private async Task Live(TimeSpan offset, int days)
    {
        clock.Offset = offset;
        using var store = new SqliteStore(Options, clock);
        await Live(store, days);
    }

    private async Task Live(SqliteStore store, int days)
    {
        for (var day = 0; day < days; day++)
        {
            _ = store.Window(Reading(next++), Verdict.InBand);
            Assert.True(await Soon(store.Flush()));
            for (var hour = 0; hour < 24; hour++)
            {
                folder.Clock.Advance(TimeSpan.FromHours(1));
                Assert.True(await Soon(store.Event(StoreEventKind.Configuration, "a commit after which is looked")));
            }
        }
    }

    private List<int> Kept()
    {
        using var reader = new StoreReader(folder.Database);
        return [.. reader.Windows(DateTimeOffset.UnixEpoch.AddYears(-20), Noon.AddYears(100)).OrderBy(window => window.Id).Select(window => (int)window.Reading.StartSeconds)];
    }

    private IReadOnlyList<StoredEvent> Events()
    {
        using var reader = new StoreReader(folder.Database);
        return reader.Events(DateTimeOffset.UnixEpoch.AddYears(-20), Noon.AddYears(100));
    }

    private long Number(string sql)
    {
        using var connection = new SqliteConnection($"Data Source={folder.Database};Pooling=False");
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        return (long)command.ExecuteScalar()!;
    }
}
