using Microsoft.Data.Sqlite;
using Microsoft.Extensions.Time.Testing;
using StrokeWatch.Outputs.Store;
using StrokeWatch.Page;
using StrokeWatch.Tests.Outputs.Store;
using Xunit;

namespace StrokeWatch.Tests.Page;

/// <summary>Long spans answered from parts of ten minutes are the windows' own smallest and largest.</summary>
public sealed class StrokeHistoryTests : IDisposable
{
    private const string Feeder = "Sand feeder";
    private static readonly DateTimeOffset Now = new(2026, 3, 4, 8, 3, 0, TimeSpan.Zero);

    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("history");
    private readonly FakeTimeProvider time = new(Now);
    private readonly List<(long Utc, double Mm)> rows = [];

    private string Store => Path.Combine(folder.FullName, "store.db");

    public void Dispose() => folder.Delete(recursive: true);

    [Theory]
    [InlineData(365, 600)]
    [InlineData(90, 240)]
    [InlineData(20, 240)]
    public async Task Every_column_holds_the_smallest_and_largest_of_its_windows_and_none_is_lost(int days, int points)
    {
        Fill(40, 977);
        using var history = new StrokeHistory(Store, Feeder, time);
        var (from, to) = (Now.AddDays(-days), Now);
        await Gathered(history, from);
        using var reader = new StoreReader(Store);
        Check(history.Columns(reader, from, to, points), from, to, points);

        // An hour later: what has come since is there, and what was gathered is not read for nothing.
        time.Advance(TimeSpan.FromHours(1));
        Add(Now.AddMinutes(30).ToUnixTimeMilliseconds(), 9);
        Check(history.Columns(reader, from, Now.AddHours(1), points), from, Now.AddHours(1), points);
        await Gathered(history, from);
        Check(history.Columns(reader, from, Now.AddHours(1), points), from, Now.AddHours(1), points);
    }

    [Fact]
    public async Task A_store_that_cannot_be_read_is_no_end_of_it()
    {
        using var history = new StrokeHistory(Store, Feeder, time);
        Assert.NotNull(await history.Gather(Now.AddDays(-90), TimeSpan.Zero));
        Fill(2, 977);
        await Gathered(history, Now.AddDays(-90));
    }

    private static async Task Gathered(StrokeHistory history, DateTimeOffset from)
    {
        for (var i = 0; i < 400; i++)
        {
            if (await history.Gather(from, TimeSpan.Zero) is null)
            {
                return;
            }

            await Task.Delay(25);
        }

        Assert.Fail("it was never gathered");
    }

    [Fact]
    public async Task A_date_that_ran_ahead_and_was_set_right_hides_nothing_that_comes_after_it()
    {
        Fill(days: 3, seconds: 600);
        var clock = new WrongClock(time) { Offset = TimeSpan.FromDays(800) };
        using var history = new StrokeHistory(Store, Feeder, clock);
        await Gathered(history, Now.AddDays(-2));
        clock.Offset = TimeSpan.Zero;
        Add(Now.AddMinutes(-30).ToUnixTimeMilliseconds(), 3);
        await Gathered(history, Now.AddDays(-2));
        using var reader = new StoreReader(Store);
        Check(history.Columns(reader, Now.AddDays(-2), Now, 100), Now.AddDays(-2), Now, 100);
    }

    private void Check((long From, long Width, IReadOnlyList<StoredColumn> Columns) got, DateTimeOffset from, DateTimeOffset to, int points)
    {
        Assert.InRange(got.From, from.ToUnixTimeMilliseconds() - StrokeHistory.PartMilliseconds + 1, from.ToUnixTimeMilliseconds());
        Assert.Equal(0, got.Width % StrokeHistory.PartMilliseconds);
        Assert.True(got.Columns.Count <= points);
        var wanted = rows.Where(row => row.Utc >= got.From && row.Utc < to.ToUnixTimeMilliseconds()).GroupBy(row => (int)((row.Utc - got.From) / got.Width)).OrderBy(group => group.Key)
            .Select(group => (group.Key, Math.Round(group.Min(row => row.Mm), 6), Math.Round(group.Max(row => row.Mm), 6), (long)group.Count()));
        Assert.Equal(wanted, got.Columns.Select(column => (column.Index, Math.Round(1e3 * column.LeastMetres, 6), Math.Round(1e3 * column.MostMetres, 6), column.Windows)));
    }

    /// <summary>Writes windows of so many days, one every so many seconds, through the store's own schema.</summary>
    private void Fill(int days, int seconds)
    {
        using (var store = new SqliteStore(new() { Path = Store, Feeder = Feeder, KeepDays = 400, CommitInterval = TimeSpan.FromMilliseconds(1) }, time))
        {
            _ = store.Event(StoreEventKind.Start, "a store to fill");
        }

        var chance = new Random(3);
        using var connection = new SqliteConnection($"Data Source={Store};Pooling=False");
        connection.Open();
        using var batch = connection.BeginTransaction();
        for (var at = Now.AddDays(-days); at < Now; at = at.AddSeconds(seconds))
        {
            Insert(connection, at.ToUnixTimeMilliseconds(), 1.6 + 0.3 * chance.NextDouble());
        }

        batch.Commit();
    }

    private void Add(long utc, double mm)
    {
        using var connection = new SqliteConnection($"Data Source={Store};Pooling=False");
        connection.Open();
        Insert(connection, utc, mm);
    }

    private void Insert(SqliteConnection connection, long utc, double mm)
    {
        using var command = connection.CreateCommand();
        command.CommandText =
            "INSERT INTO window (feeder, utc_ms, start_s, length_s, pp_mm, quality, motion, verdict, strike, clipped_samples) VALUES ($feeder, $utc, 0, 0.5, $mm, 'good', 'running', 'in-band', 0, 0)";
        command.Parameters.AddWithValue("$feeder", Feeder);
        command.Parameters.AddWithValue("$utc", utc);
        command.Parameters.AddWithValue("$mm", mm);
        command.ExecuteNonQuery();
        rows.Add((utc, mm));
    }
}
