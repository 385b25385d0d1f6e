using System.Diagnostics;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.EndToEnd.Tests.Commands;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Outputs.Influx;
using StrokeWatch.Outputs.Store;
using Xunit;
using Xunit.Abstractions;

namespace StrokeWatch.EndToEnd.Tests.Influx;

/// <summary>Forwards a real store to a real server, on the real clock.</summary>
public sealed class ForwardingTests(ITestOutputHelper output) : IDisposable
{
    private const string Feeder = "Sand, \"bin 4\" = wet";
    private readonly TempFolder folder = new();
    private readonly VictoriaMetrics server = new();
    private readonly DateTimeOffset began = DateTimeOffset.UtcNow.AddHours(-3);
    private readonly List<string> told = [];
    private int windows;

    public void Dispose()
    {
        server.Dispose();
        folder.Dispose();
    }

    [SkippableFact]
    public async Task A_server_that_goes_away_in_the_middle_and_comes_back_holds_every_row_once_and_in_order()
    {
        VictoriaMetrics.Need();
        await server.Start();
        Write(50);
        using var forwarder = Forward();
        for (var i = 0; i < 30; i++)
        {
            Write(50);
            await Task.Delay(20);
            if (i == 15)
            {
                server.Stop();
            }
        }

        await Until(() => forwarder.Health.Trouble is not null, forwarder);
        Assert.InRange(forwarder.Health.Held, 1, windows);
        await server.Start();
        Write(50);
        await Until(() => forwarder.Health is { Held: 0, Trouble: null } && forwarder.Health.Sent >= windows, forwarder);
        await Holds(windows);
        Assert.Contains(told, words => words.Contains("does not answer", StringComparison.Ordinal));
        Assert.Contains("takes rows again", told[^1], StringComparison.Ordinal);
        output.WriteLine($"{windows} rows, {forwarder.Health.Sent} confirmed, {forwarder.Health.Refused} refused, {forwarder.Health.Gone} gone");
    }

    [SkippableFact]
    public async Task A_server_whose_disk_is_full_gets_every_row_once_it_has_room()
    {
        VictoriaMetrics.Need();
        await server.Start("-storage.minFreeDiskSpaceBytes=1000000000000000");
        Write(300);
        using var forwarder = Forward();
        await Until(() => forwarder.Health.Trouble is not null, forwarder);
        output.WriteLine(forwarder.Health.Trouble);
        Assert.Equal((0L, 300L), (forwarder.Health.Sent, forwarder.Health.Held));
        server.Stop();
        await server.Start();
        await Until(() => forwarder.Health is { Held: 0, Sent: 300 }, forwarder);
        await Holds(300);
    }

    /// <summary>A feeder of 50 Hz makes two rows a second: a backlog must go a hundred times as fast.</summary>
    [SkippableFact]
    public async Task A_backlog_of_hours_is_gone_in_seconds_and_takes_no_memory()
    {
        VictoriaMetrics.Need();
        await server.Start();
        Write(14_400);
        var before = GC.GetTotalMemory(forceFullCollection: true);
        var began = Stopwatch.GetTimestamp();
        using var forwarder = Forward(1000);
        await Until(() => forwarder.Health.Sent == windows, forwarder);
        var seconds = Stopwatch.GetElapsedTime(began).TotalSeconds;
        output.WriteLine($"{windows / seconds:0} rows a second");
        Assert.InRange(windows / seconds, 200, double.PositiveInfinity);
        Assert.InRange(GC.GetTotalMemory(forceFullCollection: true) - before, long.MinValue, 2 << 20);
        await Holds(windows);
    }

    private InfluxForwarder Forward(int batch = 50) => InfluxForwarder.Start(
        new() { Url = server.Url, Org = "-", Bucket = "-", BatchRows = batch, Interval = TimeSpan.FromMilliseconds(100), Patience = TimeSpan.FromSeconds(5) },
        folder.At("store.db"), Feeder, TimeProvider.System, (_, words) => told.Add(words));

    private async Task Holds(int rows)
    {
        var ids = Assert.Single(await server.Samples("strokewatch_window_id"));
        Assert.Equal(Feeder, ids.Key);
        Assert.Equal(Enumerable.Range(1, rows).Select(i => (double)i), ids.Value.Select(sample => sample.Value));
        Assert.Equal(Enumerable.Range(0, rows).Select(i => Instant(i).ToUnixTimeMilliseconds()), ids.Value.Select(sample => sample.Ms));
        var strokes = Assert.Single(await server.Samples("strokewatch_window_pp_mm")).Value;
        Assert.Equal(Enumerable.Range(0, rows).Select(Millimetres), strokes.Select(sample => sample.Value), (a, b) => Math.Abs(a - b) < 1e-9);
    }

    private DateTimeOffset Instant(int row) => DateTimeOffset.FromUnixTimeMilliseconds(began.ToUnixTimeMilliseconds()).AddSeconds(0.5 * row);

    private static double Millimetres(int row) => 1.6 + 1e-4 * (row % 7);

    private void Write(int count)
    {
        using var connection = Database.OpenWriter(new() { Path = folder.At("store.db"), Feeder = Feeder });
        Schema.Ensure(connection);
        using var writer = new RowWriter(connection, Feeder);
        writer.Commit([.. Enumerable.Range(windows, count).Select(i => new WindowRow(
            Instant(i),
            new() { StartSeconds = 0.5 * i, LengthSeconds = 0.5, Quality = WindowQuality.Good, Motion = MotionState.Running, StrokeMetres = Millimetres(i) / 1e3 },
            Verdict.InBand))]);
        windows += count;
    }

    private static async Task Until(Func<bool> asked, InfluxForwarder forwarder)
    {
        for (var i = 0; i < 1200 && !asked(); i++)
        {
            await Task.Delay(50);
        }

        Assert.True(asked(), forwarder.Health.ToString());
    }
}
