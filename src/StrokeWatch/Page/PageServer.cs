using System.Net.Sockets;
using Serilog;
using StrokeWatch.Configuration;

namespace StrokeWatch.Page;

/// <summary>Serves the page beside the measurement until it is disposed of; where it cannot listen it says so and tries again.</summary>
internal sealed class PageServer : IDisposable
{
    private static readonly TimeSpan Again = TimeSpan.FromSeconds(10);
    private static readonly TimeSpan BeatPeriod = TimeSpan.FromSeconds(1);
    private static readonly TimeSpan StopPatience = TimeSpan.FromSeconds(2);

    private readonly PageSettings settings;
    private readonly LiveFeed feed;
    private readonly PageRoutes routes;
    private readonly TimeProvider time;
    private readonly ILogger log;
    private readonly Action<string> say;
    private readonly Action failed;
    private readonly CancellationTokenSource stop = new();
    private readonly ITimer beat;
    private readonly Task serving;

    /// <summary>Begins to serve.</summary>
    /// <param name="settings">Where.</param>
    /// <param name="board">What is shown.</param>
    /// <param name="feed">Those who follow it.</param>
    /// <param name="routes">What is served where.</param>
    /// <param name="time">The clock.</param>
    /// <param name="log">Where trouble is told.</param>
    /// <param name="say">Hears once, from another thread, where the page is.</param>
    /// <param name="failed">Hears, from another thread, each time that it cannot be served.</param>
    public PageServer(PageSettings settings, LiveBoard board, LiveFeed feed, PageRoutes routes, TimeProvider time, ILogger log, Action<string> say, Action failed)
    {
        (this.settings, this.feed, this.routes, this.time, this.log, this.say, this.failed) = (settings, feed, routes, time, log, say, failed);
        beat = time.CreateTimer(_ => board.Beat(), null, BeatPeriod, BeatPeriod);
        serving = Task.Run(Serve);
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        beat.Dispose();
        feed.Close();
        stop.Cancel();

        // Only real time passes here: a clock of the tests' own would never come to the end of the patience.
        if (serving.Wait(2 * StopPatience))
        {
            routes.Dispose();
            stop.Dispose();
        }
    }

    private async Task Serve()
    {
        var told = "";
        while (!stop.IsCancellationRequested)
        {
            try
            {
                await using var application = PageHost.Make(settings, routes.Answer);
                await application.StartAsync(stop.Token).ConfigureAwait(false);
                told = "";
                say($"Page: {application.Urls.First()}/");
                await Task.Delay(Timeout.InfiniteTimeSpan, time, stop.Token).ContinueWith(_ => { }, TaskScheduler.Default).ConfigureAwait(false);
                using var patience = new CancellationTokenSource(StopPatience, time);
                await application.StopAsync(patience.Token).ConfigureAwait(false);
            }
            catch (Exception trouble) when (trouble is IOException or SocketException)
            {
                failed();
                if (told != trouble.Message)
                {
                    told = trouble.Message;
                    log.Error("Page: cannot be served at {Address:l} ({Trouble:l}); the measurement goes on, and it is tried again", settings.Listen.ToString(), told.ReplaceLineEndings(" "));
                }

                await Task.Delay(Again, time, stop.Token).ContinueWith(_ => { }, TaskScheduler.Default).ConfigureAwait(false);
            }
            catch (OperationCanceledException) when (stop.IsCancellationRequested)
            {
                return;
            }
        }
    }
}
