using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Net.Sockets;
using System.Text;
using Serilog.Core;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Configuration;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Outputs.Store;
using StrokeWatch.Page;
using StrokeWatch.Samples.Quantities;
using Xunit;

namespace StrokeWatch.Tests.Page;

/// <summary>The real server, and a client that asks for what comes live and then does not read it.</summary>
[Collection(Undisturbed.Name)]
public sealed class SlowClientTests
{
    private const int Windows = 4000;

    [Fact]
    public async Task Who_does_not_read_never_slows_who_publishes_loses_events_that_are_counted_and_another_hears_the_newest()
    {
        var feed = new LiveFeed();
        var board = new LiveBoard(
            new()
            {
                Name = "Sand feeder",
                Drive = new(50, 1, Free: false),
                Band = new(Length.FromMillimetres(1.65), Length.FromMillimetres(1.78), Length.FromMillimetres(1.9)),
            },
            TimeProvider.System, feed, () => [], () => new(StoreState.Working, null, 0, 0, 0, 0, 0, null));
        var address = new TaskCompletionSource<Uri>(TaskCreationOptions.RunContinuationsAsynchronously);
        var settings = new PageSettings(new(IPAddress.Loopback, 0), [], Needed: false);
        using var server = new PageServer(
            settings, board, feed, new(board, feed, new("none.db", "Sand feeder", TimeProvider.System), () => null, new([]), []), TimeProvider.System, Logger.None,
            said => address.TrySetResult(new(said["Page: ".Length..])), () => { });
        var at = await address.Task.WaitAsync(TimeSpan.FromSeconds(20));

        using var slow = new Socket(SocketType.Stream, ProtocolType.Tcp) { ReceiveBufferSize = 4096 };
        await slow.ConnectAsync(IPAddress.Loopback, at.Port);
        await slow.SendAsync(Encoding.ASCII.GetBytes("GET /api/v1/live HTTP/1.1\r\nHost: localhost\r\n\r\n"));
        using var client = new HttpClient { BaseAddress = at };
        using var quick = new StreamReader(await client.GetStreamAsync("api/v1/live"));
        var newest = 0L;
        var reading = Task.Run(async () =>
        {
            while (newest < Windows && await quick.ReadLineAsync() is { } line)
            {
                newest = line.Contains("\"windows\":", StringComparison.Ordinal)
                    ? long.Parse(line.Split("\"windows\":")[1].Split(',', '}')[0], CultureInfo.InvariantCulture) : newest;
            }
        });
        while (feed.Followers < 2)
        {
            await Task.Delay(10);
        }

        var longest = TimeSpan.Zero;
        var memory = GC.GetTotalMemory(forceFullCollection: true);
        for (var i = 0; i < Windows; i++)
        {
            var began = Stopwatch.GetTimestamp();
            board.Window(new(
                new() { StartSeconds = i, LengthSeconds = 0.5, Quality = WindowQuality.Good, Motion = MotionState.Running, StrokeMetres = 1.7e-3, UncertaintyMetres = 0.02e-3, StrikeScore = 0.1 },
                Verdict.InBand));
            var took = Stopwatch.GetElapsedTime(began);
            longest = took > longest ? took : longest;
            await Task.Delay(i % 8 == 0 ? 1 : 0);
        }

        await reading.WaitAsync(TimeSpan.FromSeconds(20));
        Assert.Equal(Windows, newest);
        Assert.True(feed.Dropped > Windows / 2, $"{feed.Dropped} events were dropped");
        Assert.True(longest < TimeSpan.FromMilliseconds(100), $"one window took {longest.TotalMilliseconds} ms");
        Assert.InRange(GC.GetTotalMemory(forceFullCollection: true) - memory, long.MinValue, 4_000_000);
        Assert.True(slow.Available < 100_000);
        Assert.Contains($"strokewatch_page_dropped_events_total{{feeder=\"Sand feeder\"}} {feed.Dropped}", await client.GetStringAsync("metrics"), StringComparison.Ordinal);
    }
}
