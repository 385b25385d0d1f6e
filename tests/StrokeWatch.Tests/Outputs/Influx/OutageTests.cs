using StrokeWatch.EndToEnd.Tests.Influx;
using Xunit;
using Xunit.Abstractions;

namespace StrokeWatch.Tests.Outputs.Influx;

/// <summary>
/// A real time-series server behind a gate that makes its outages: what it answers wrongly, late or not at all is the gate's, what it holds in the end is its own.
/// The clock that waits are taken from is the test's, so that minutes and weeks pass at once.
/// </summary>
[Collection(Undisturbed.Name)]
public sealed class OutageTests(ITestOutputHelper output) : IDisposable
{
    private const int Rows = 500, Poison = 137;
    private readonly InfluxBench bench = new();
    private readonly VictoriaMetrics server = new();
    private readonly DateTimeOffset began = DateTimeOffset.FromUnixTimeSeconds(DateTimeOffset.UtcNow.AddDays(-8).ToUnixTimeSeconds());

    public void Dispose()
    {
        bench.Dispose();
        server.Dispose();
    }

    [SkippableTheory]
    [InlineData("401", "check token_file")]
    [InlineData("404", "check url, org and bucket")]
    [InlineData("413", null)]
    [InlineData("400 with one poison row", null)]
    [InlineData("429 with Retry-After", "takes nothing now")]
    [InlineData("slow", "does not answer (no answer in time)")]
    [InlineData("cut in the middle of a write", "does not answer")]
    public async Task What_it_answers_in_an_outage_costs_it_no_row_and_gives_it_none_twice(string outage, string? words)
    {
        VictoriaMetrics.Need();
        await server.Start();
        var (requests, broken) = (0, true);
        using var gate = new FakeInflux();
        FakeReply Pass(IReadOnlyList<string> lines) => server.Take(lines).GetAwaiter().GetResult() ? FakeReply.Taken : new(500);
        gate.Answer = lines => (outage, ++requests > 2 && broken) switch
        {
            (_, false) when outage is not ("413" or "400 with one poison row") => Pass(lines),
            ("401", _) => new(401) { Body = "unauthorized" },
            ("404", _) => new(404) { Body = "no such bucket" },
            ("413", _) => lines.Count > 40 ? new(413) : Pass(lines),
            ("400 with one poison row", _) => lines.Any(line => line.Contains($"id={Poison}i", StringComparison.Ordinal)) ? new(400) { Body = "field type conflict" } : Pass(lines),
            ("429 with Retry-After", _) => new(429) { RetryAfter = "120" },
            ("slow", _) => Pass(lines) with { Delay = TimeSpan.FromSeconds(20) },
            _ => Pass([.. lines.Take(lines.Count / 2)]) with { Abort = true },
        };
        bench.Store.Windows(began, Rows);

        // Longer than a busy machine's server may take for what it does answer.
        bench.Forward(gate.Url, o => o with { Patience = TimeSpan.FromSeconds(8) });
        var wait = await bench.Settle();
        var (sent, held) = (bench.Health.Sent, bench.Health.Held);
        if (words is not null)
        {
            Assert.Contains(words, bench.Health.Trouble, StringComparison.Ordinal);
            Assert.Equal((200, Rows - 200), (sent, held));
        }

        broken = false;
        for (var i = 0; i < 20 && bench.Health.Held > 0; i++)
        {
            wait = await bench.After(wait);
        }

        await Holds(Rows, outage.StartsWith("400", StringComparison.Ordinal) ? Poison : null);
        output.WriteLine($"{outage}: in the outage {sent} sent, {held} held; afterwards {bench.Health.Sent} sent, {bench.Health.Held} held, {bench.Health.Refused} set aside, {bench.Health.Gone} lost");
        Assert.Equal(0, bench.Health.Gone);
    }

    [SkippableFact]
    public async Task Killed_while_half_of_a_request_has_reached_it_it_holds_every_row_once_afterwards()
    {
        VictoriaMetrics.Need();
        await server.Start();
        var kill = false;
        using var gate = new FakeInflux();
        gate.Answer = lines => server.Take(lines, kill).GetAwaiter().GetResult() ? FakeReply.Taken : new(0) { Abort = true };
        bench.Store.Windows(began, 200);
        bench.Forward(gate.Url);
        await bench.Settle();

        // What it had confirmed is on its disk by then: that it forgets what it confirmed in its last seconds is its makers' word, and said in the notes.
        Assert.Equal(200, Assert.Single(await server.Samples("strokewatch_window_id")).Value.Count);
        await Task.Delay(TimeSpan.FromSeconds(8));
        kill = true;
        bench.Store.Windows(began.AddSeconds(100), 300);
        var wait = await bench.After(TimeSpan.FromSeconds(5));
        var (sent, held) = (bench.Health.Sent, bench.Health.Held);
        Assert.Equal((200, 300), (sent, held));
        kill = false;
        await server.Start();
        for (var i = 0; i < 20 && bench.Health.Held > 0; i++)
        {
            wait = await bench.After(wait);
        }

        await Holds(Rows, null);
        output.WriteLine($"killed: in the outage {sent} sent, {held} held; afterwards {bench.Health.Sent} sent, {bench.Health.Held} held, {bench.Health.Gone} lost");
    }

    [SkippableFact]
    public async Task Away_for_a_week_it_gets_every_row_once_and_memory_stays_flat_meanwhile()
    {
        VictoriaMetrics.Need();
        var away = FakeInflux.FreePort();
        bench.Forward(new($"http://127.0.0.1:{away}/"));
        await bench.Settle();
        long before = 0;
        for (var hour = 0; hour < 7 * 24; hour++)
        {
            before = hour == 24 ? GC.GetTotalMemory(forceFullCollection: true) : before;
            bench.Store.Windows(began.AddHours(hour), 60, seconds: 60);
            await bench.After(TimeSpan.FromHours(1));
        }

        var grown = GC.GetTotalMemory(forceFullCollection: true) - before;
        var held = bench.Health.Held;
        Assert.Equal(7 * 24 * 60, held);
        Assert.InRange(grown, long.MinValue, 2 << 20);
        await server.Start();
        using var gate = new FakeInflux(away) { Answer = lines => server.Take(lines).GetAwaiter().GetResult() ? FakeReply.Taken : new(500) };
        var wait = TimeSpan.FromHours(1);
        for (var i = 0; i < 20 && bench.Health.Held > 0; i++)
        {
            wait = await bench.After(wait);
        }

        await Holds(7 * 24 * 60, null, TimeSpan.FromMinutes(1));
        output.WriteLine($"a week away: {held} held, heap {grown / 1024} KiB more; afterwards {bench.Health.Sent} sent, {bench.Health.Held} held, {bench.Health.Gone} lost");
    }

    /// <summary>Holds what the server has, read back from it, against what was written: every row but one once, in order, at its instant.</summary>
    private async Task Holds(int rows, int? without, TimeSpan? apart = null)
    {
        var ids = Assert.Single(await server.Samples("strokewatch_window_id")).Value;
        var expected = Enumerable.Range(1, rows).Where(id => id != without).Select(id => (began.Add((id - 1) * (apart ?? TimeSpan.FromSeconds(0.5))).ToUnixTimeMilliseconds(), (double)id));
        Assert.Equal(expected, ids);
        Assert.Equal((rows - (without is null ? 0 : 1), 0), (bench.Health.Sent, bench.Health.Held));
        Assert.Equal(without is null ? 0 : 1, bench.SetAside().Count);
    }
}
