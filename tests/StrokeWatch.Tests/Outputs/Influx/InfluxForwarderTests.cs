using StrokeWatch.Outputs.Influx;
using Xunit;
using static StrokeWatch.Tests.Outputs.Influx.InfluxBench;

namespace StrokeWatch.Tests.Outputs.Influx;

[Collection(Undisturbed.Name)]
public sealed class InfluxForwarderTests : IDisposable
{
    private readonly InfluxBench bench = new();

    public void Dispose() => bench.Dispose();

    [Fact]
    public async Task Rows_of_every_table_arrive_once_and_in_order_and_the_token_goes_with_them()
    {
        using var server = new FakeInflux();
        bench.Store.Windows(Noon, 250);
        bench.Store.Alarm(Noon.AddSeconds(3));
        bench.Store.Alarm(Noon.AddSeconds(9), raised: false);
        bench.Store.Event(Noon, "two\nlines, \"quoted\" and a \\");
        bench.Forward(server.Url, o => o with { TokenPath = bench.Token("glass-secret\n") });
        Assert.Equal(TimeSpan.FromSeconds(5), await bench.Settle());
        Assert.Equal(Whole(250), server.Ids("window"));
        Assert.Equal([1, 2], server.Ids("alarm"));
        Assert.Equal([1], server.Ids("event"));
        Assert.Equal(253, server.Kept.Count);
        Assert.Equal("Token glass-secret", server.Authorization);
        Assert.All(server.Paths, path => Assert.Equal("/api/v2/write?org=glass&bucket=feeders&precision=ns", path));
        Assert.Equal((253L, 0L, 0L, 0L, null), (bench.Health.Sent, bench.Health.Held, bench.Health.Refused, bench.Health.Gone, bench.Health.Trouble));
        Assert.Equal(Noon, bench.Health.LastSuccess);
        Assert.Empty(bench.Told);
    }

    [Fact]
    public async Task A_week_without_the_server_loses_nothing_and_takes_no_memory()
    {
        var port = FakeInflux.FreePort();
        bench.Forward(new($"http://127.0.0.1:{port}/"));
        await bench.Settle();
        var (before, attempts) = (0L, 0);
        var left = TimeSpan.Zero;
        for (var hour = 0; hour < 7 * 24; hour++)
        {
            // What the first day's attempts make once and keep (sockets, timers) is no growth.
            before = hour == 24 ? GC.GetTotalMemory(forceFullCollection: true) : before;
            bench.Store.Windows(Noon.AddHours(hour), 60, seconds: 60);
            bench.Store.Alarm(Noon.AddHours(hour));
            for (left += TimeSpan.FromHours(1); left > TimeSpan.Zero; attempts++)
            {
                left -= await bench.After(TimeSpan.FromSeconds(1)) is var wait && wait > TimeSpan.Zero ? wait : throw new InvalidOperationException("no wait");
                bench.Clock.Advance(wait);
            }
        }

        // Six days' rows held in memory would be 8,784 of 454 bytes, 4 MB.
        Assert.InRange(GC.GetTotalMemory(forceFullCollection: true) - before, -long.MaxValue, 1 << 20);
        Assert.InRange(attempts, 7 * 24 * 60 / 5, 7 * 24 * 60 / 2.5 + 30);
        Assert.Equal(7 * 24 * 61, bench.Health.Held);
        var (trouble, words) = Assert.Single(bench.Told);
        Assert.True(trouble);
        Assert.Contains("does not answer", words, StringComparison.Ordinal);
        Assert.Contains("rows are held and sent later", words, StringComparison.Ordinal);

        using var server = new FakeInflux(port);
        await bench.After(TimeSpan.FromMinutes(6));
        Assert.Equal(Whole(7 * 24 * 60), server.Ids("window"));
        Assert.Equal(Whole(7 * 24), server.Ids("alarm"));
        Assert.Equal(7 * 24 * 61, server.Kept.Count);
        Assert.All(server.Requests, lines => Assert.InRange(lines, 1, 100));
        Assert.Equal((0L, null), (bench.Health.Held, bench.Health.Trouble));
        Assert.Equal((false, true), (bench.Told[^1].Trouble, bench.Told[^1].Words.Contains("takes rows again", StringComparison.Ordinal)));
    }

    [Theory]
    [InlineData(401, "check token_file")]
    [InlineData(403, "check token_file")]
    [InlineData(404, "check url, org and bucket")]
    [InlineData(301, "until that is put right")]
    public async Task Where_something_must_be_put_right_rows_are_held_and_seldom_tried(int status, string todo)
    {
        using var server = new FakeInflux { Answer = _ => new(status) { Body = """{"code":"x","message":"no glass-secret for you"}""" } };
        bench.Store.Windows(Noon, 30);
        bench.Forward(server.Url, o => o with { TokenPath = bench.Token("glass-secret") });
        var wait = await bench.Settle();
        Assert.InRange(wait.TotalMinutes, 5, 5.5);
        Assert.Single(server.Requests);
        Assert.Contains(todo, Assert.Single(bench.Told).Words, StringComparison.Ordinal);
        Assert.Contains(todo, bench.Health.Trouble, StringComparison.Ordinal);
        Assert.DoesNotContain("glass-secret", bench.Told[0].Words, StringComparison.Ordinal);
        Assert.Equal(30, bench.Health.Held);

        // The token is read anew: putting it right is enough.
        server.Answer = _ => server.Authorization == "Token new" ? FakeReply.Taken : new(status);
        bench.Token("new");
        await bench.After(wait);
        Assert.Equal(Whole(30), server.Ids("window"));
        Assert.Null(bench.Health.Trouble);
    }

    [Fact]
    public async Task A_server_that_takes_only_small_requests_gets_small_ones()
    {
        using var server = new FakeInflux();
        server.Answer = lines => lines.Count > 40 ? new(413) { Body = "too large" } : FakeReply.Taken;
        bench.Store.Windows(Noon, 230);
        bench.Forward(server.Url);
        await bench.Settle();
        Assert.Equal(Whole(230), server.Ids("window"));
        Assert.Equal(230, server.Kept.Count);
        Assert.Equal([100, 50, 25, 25, 25, 25, 25, 25, 25, 25, 25, 5], server.Requests);
        Assert.Equal(0, bench.Health.Refused);
    }

    [Fact]
    public async Task One_row_that_the_server_will_not_have_is_found_and_set_aside_and_all_others_arrive()
    {
        using var server = new FakeInflux();
        server.Answer = lines => lines.Any(line => line.Contains("id=137i", StringComparison.Ordinal))
            ? new(400) { Body = """{"code":"invalid","message":"field type conflict"}""" }
            : FakeReply.Taken;
        bench.Store.Windows(Noon, 300);
        bench.Forward(server.Url);
        await bench.Settle();
        Assert.Equal(Whole(300).Where(id => id != 137), server.Ids("window"));
        Assert.Equal(299, server.Kept.Count);
        Assert.InRange(server.Requests.Count, 3, 3 + 2 * 7);
        Assert.Equal((299L, 1L, 0L), (bench.Health.Sent, bench.Health.Refused, bench.Health.Held));
        var (table, row, reason, text) = Assert.Single(bench.SetAside());
        Assert.Equal(("window", 137L, "400 field type conflict"), (table, row, reason));
        Assert.Contains("id=137i", text, StringComparison.Ordinal);
        var (trouble, words) = Assert.Single(bench.Told);
        Assert.True(trouble);
        Assert.Contains("row 137 of the table window: 400 field type conflict", words, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_row_too_large_even_alone_is_set_aside()
    {
        using var server = new FakeInflux();
        server.Answer = lines => lines.Sum(line => line.Length) > 4000 ? new(413) : FakeReply.Taken;
        bench.Store.Event(Noon, "short");
        bench.Store.Event(Noon, new string('x', 5000));
        bench.Store.Event(Noon, "short again");
        bench.Forward(server.Url);
        await bench.Settle();
        Assert.Equal([1, 3], server.Ids("event"));
        Assert.Equal(("event", 2L), (bench.SetAside()[0].Table, bench.SetAside()[0].Row));
    }

    [Fact]
    public async Task A_server_that_refuses_everything_does_not_make_the_store_run_empty()
    {
        using var server = new FakeInflux { Answer = _ => new(400) { Body = "this is a web shop" } };
        bench.Store.Windows(Noon, 300);
        bench.Forward(server.Url);
        await bench.Settle();
        Assert.Equal((InfluxLane.MostInARow, 300L - InfluxLane.MostInARow), (bench.SetAside().Count, bench.Health.Held));
        Assert.Contains("refuses every row (400 this is a web shop): rows are held", bench.Health.Trouble, StringComparison.Ordinal);
        var asked = server.Requests.Count;
        for (var minute = 0; minute < 60; minute++)
        {
            await bench.After(TimeSpan.FromMinutes(1));
        }

        Assert.Equal(InfluxLane.MostInARow, bench.SetAside().Count);
        Assert.InRange(server.Requests.Count - asked, 1, 60);
        server.Answer = _ => FakeReply.Taken;
        await bench.After(TimeSpan.FromHours(2));
        Assert.Equal(Whole(300).Skip(InfluxLane.MostInARow), server.Ids("window"));
        Assert.Null(bench.Health.Trouble);
    }

    [Theory]
    [InlineData(429, "120", 120)]
    [InlineData(503, "40", 40)]
    [InlineData(429, "Sun, 29 Mar 2026 12:03:00 GMT", 180)]
    [InlineData(429, "soon", 0)]
    [InlineData(500, null, 0)]
    public async Task A_busy_server_is_left_alone_as_long_as_it_asks(int status, string? later, int seconds)
    {
        using var server = new FakeInflux { Answer = _ => new(status) { RetryAfter = later } };
        bench.Store.Windows(Noon, 30);
        bench.Forward(server.Url);
        var wait = await bench.Settle();
        Assert.InRange(wait.TotalSeconds, seconds, Math.Max(1.001, seconds * 1.1));
        bench.Clock.Advance(TimeSpan.FromSeconds(seconds));
        Assert.True(seconds == 0 || await bench.Settle() < TimeSpan.FromSeconds(0.1 * seconds + 1));
        Assert.Contains("takes nothing now", bench.Health.Trouble, StringComparison.Ordinal);
        server.Answer = _ => FakeReply.Taken;
        await bench.After(wait);
        Assert.Equal(Whole(30), server.Ids("window"));
        Assert.Equal(30, server.Kept.Count);
    }

    [Fact]
    public async Task A_server_that_takes_rows_but_answers_too_late_holds_each_once_in_the_end()
    {
        using var server = new FakeInflux { Answer = _ => FakeReply.Taken with { Delay = TimeSpan.FromSeconds(4) } };
        bench.Store.Windows(Noon, 30);
        bench.Forward(server.Url, o => o with { Patience = TimeSpan.FromSeconds(1.5) });
        var wait = await bench.Settle();
        Assert.Contains("does not answer (no answer in time)", bench.Health.Trouble, StringComparison.Ordinal);
        Assert.Equal((0L, 30L), (bench.Health.Sent, bench.Health.Held));
        server.Answer = _ => FakeReply.Taken;
        bench.Forward(server.Url);
        await bench.After(wait);
        Assert.Equal(60, server.Kept.Count);
        Assert.Equal(Whole(30), server.Ids("window"));
    }

    [Fact]
    public async Task A_server_killed_in_the_middle_of_a_write_holds_each_row_once_in_the_end()
    {
        using var server = new FakeInflux { Answer = lines => new(0, lines.Count / 2) { Abort = true } };
        bench.Store.Windows(Noon, 100);
        bench.Forward(server.Url);
        var wait = await bench.Settle();
        Assert.Equal((0L, 100L), (bench.Health.Sent, bench.Health.Held));
        server.Answer = _ => FakeReply.Taken;
        await bench.After(wait);
        Assert.InRange(server.Kept.Count, 150, 250);
        Assert.Equal(Whole(100), server.Ids("window"));
        Assert.Equal(100, bench.Health.Sent);
    }

    [Fact]
    public async Task After_a_restart_it_goes_on_where_it_was()
    {
        using var server = new FakeInflux();
        bench.Store.Windows(Noon, 150);
        bench.Forward(server.Url);
        await bench.Settle();
        bench.Store.Windows(Noon.AddHours(1), 20);
        bench.Forward(server.Url);
        await bench.Settle();
        Assert.Equal(170, server.Kept.Count);
        Assert.Equal(Whole(170), server.Ids("window"));
    }

    [Theory]
    [InlineData(20)]
    [InlineData(150)]
    [InlineData(400)]
    public async Task A_store_begun_anew_is_forwarded_from_its_start(int rows)
    {
        using var server = new FakeInflux();
        bench.Store.Windows(Noon, 150);
        bench.Forward(server.Url);
        await bench.Settle();
        bench.NewStore();
        bench.Store.Windows(Noon.AddDays(1), rows);
        await bench.Settle();
        Assert.Equal(150 + rows, server.Kept.Count);
        Assert.Equal(150 + rows, server.Ids("window").Count);
        Assert.Equal(150 + rows, bench.Health.Sent);
    }

    [Fact]
    public async Task Rows_that_outlived_their_days_unsent_are_counted_as_gone()
    {
        using var server = new FakeInflux { Answer = _ => new(503) };
        bench.Store.Windows(Noon, 150);
        bench.Forward(server.Url);
        await bench.Settle();
        bench.Store.Run("DELETE FROM window WHERE id <= 40");
        server.Answer = _ => FakeReply.Taken;
        await bench.After(TimeSpan.FromSeconds(2));
        Assert.Equal((110L, 40L, 0L), (bench.Health.Sent, bench.Health.Gone, bench.Health.Held));
        bench.Store.Windows(Noon.AddDays(1), 10);
        bench.Store.Run("DELETE FROM window");
        await bench.Settle();
        Assert.Equal((110L, 50L, 0L), (bench.Health.Sent, bench.Health.Gone, bench.Health.Held));
        bench.Store.Windows(Noon.AddDays(2), 5);
        await bench.Settle();
        Assert.Equal((115L, 50L, 0L), (bench.Health.Sent, bench.Health.Gone, bench.Health.Held));
    }

    [Fact]
    public async Task A_broken_note_of_the_place_is_put_aside_and_everything_sent_again()
    {
        using var server = new FakeInflux();
        bench.Store.Windows(Noon, 50);
        File.WriteAllText(Path.ChangeExtension(bench.Database, ".influx.db"), new string('x', 8192));
        bench.Forward(server.Url);
        await bench.Settle();
        Assert.Equal(Whole(50), server.Ids("window"));
        Assert.Single(Directory.GetFiles(bench.Folder, "store.influx.db.broken-*"));
    }

    [Fact]
    public void A_hanging_server_holds_up_neither_the_start_nor_the_end()
    {
        using var server = new FakeInflux { Answer = _ => new(204) { Delay = TimeSpan.FromSeconds(20) } };
        bench.Store.Windows(Noon, 50);
        var options = new InfluxOptions { Url = server.Url, Org = "glass", Bucket = "feeders" };
        var clock = TimeProvider.System;
        var begun = clock.GetTimestamp();
        using (InfluxForwarder.Start(options, bench.Database, "Sand feeder", clock, (_, _) => { }))
        {
            Assert.InRange(clock.GetElapsedTime(begun).TotalSeconds, 0, 2);
            Assert.True(SpinWait.SpinUntil(() => server.Requests.Count > 0, TimeSpan.FromSeconds(20)));
            begun = clock.GetTimestamp();
        }

        Assert.InRange(clock.GetElapsedTime(begun).TotalSeconds, 0, 4);
    }

    [Fact]
    public async Task A_server_behind_a_path_is_written_to_below_it()
    {
        using var server = new FakeInflux();
        bench.Store.Windows(Noon, 1);
        bench.Forward(new(server.Url, "insert/0/influx"));
        await bench.Settle();
        Assert.Equal("/insert/0/influx/api/v2/write?org=glass&bucket=feeders&precision=ns", Assert.Single(server.Paths));
    }
}
