using Serilog;
using StrokeWatch.Configuration;
using StrokeWatch.Page.Access;
using StrokeWatch.Page.Books;
using StrokeWatch.Page.Captures;
using StrokeWatch.Page.Findings;
using StrokeWatch.Page.Health;
using StrokeWatch.Page.Waves;
using StrokeWatch.Pipeline;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Sources;

namespace StrokeWatch.Page;

/// <summary>The page as the daemon holds it: the board that the chain feeds, the taps that the samples pass, and the server that shows them.</summary>
internal sealed class PageShelf : IDisposable
{
    private readonly PageServer server;
    private readonly PageActs acts;
    private readonly RecentWindows recent;
    private readonly WaveTaps taps;

    private PageShelf(LiveBoard board, RecentWindows recent, WaveTaps taps, PageActs acts, PageServer server) =>
        (Board, this.recent, this.taps, this.acts, this.server) = (board, recent, taps, acts, server);

    /// <summary>Gets the board.</summary>
    public LiveBoard Board { get; }

    /// <summary>Gets what must hear the chain.</summary>
    public IReadOnlyList<IChainListener> Listeners => [Board, recent, acts.Meter];

    /// <summary>Makes the board and begins to serve it.</summary>
    public static PageShelf Open(PageSettings settings, PageSight sight, TimeProvider time, ILogger log, Action<string> say)
    {
        var feed = new LiveFeed();
        var acts = PageActs.Open(settings, sight, time, log);
        WaveTaps? taps = null;
        var board = new LiveBoard(sight.Feeder, time, feed, () => sight.Lives.Now, () => sight.Store.Health) { CanSignIn = acts.Possible, SampleAge = () => taps?.AgeSeconds };
        var recent = new RecentWindows();
        taps = new(sight.Feeder, sight.Sources, () => board.Now.Reading?.Window.Reading, time);
        var waves = new WaveAnswers(taps);
        var health = new HealthAnswers(sight, taps, board, feed, time);
        var captures = new CaptureAnswers(sight.Feeder, sight.CaptureList);
        var routes = new PageRoutes(board, feed, new(sight.StorePath, sight.Feeder.Name, time), () => health.Now, new(settings.Names), new()
        {
            ["/api/v1/waveform"] = waves.Waveform,
            ["/api/v1/path"] = waves.Path,
            ["/api/v1/orders"] = waves.Orders,
            ["/api/v1/findings"] = new FindingAnswers(sight.Feeder, () => sight.Sources[0].Info, recent, sight.Machine, time).Answer,
            ["/api/v1/baselines"] = new BaselineAnswers(acts.Tuning.Baseline).List,
            ["/api/v1/book"] = new BookAnswers(acts.Tuning).Answer,
            ["/api/v1/health"] = health.Answer,
            ["/api/v1/captures"] = captures.List,
            ["/api/v1/captures/look"] = captures.Look,
            ["/api/v1/captures/replay"] = captures.Replay,
            ["/api/v1/captures/file"] = captures.Download,
        })
        { Acts = acts };
        return new(board, recent, taps, acts, new(settings, board, feed, routes, time, log, say, () =>
        {
            if (settings.Needed)
            {
                sight.Lives.Failed("page");
            }
        }));
    }

    /// <summary>Takes a block of a device on its way to the measurement.</summary>
    public void Take(int device, SampleBlock block, SourceInfo info)
    {
        taps.Take(device, block, info);
        acts.Meter.Take(device, block, info);
    }

    /// <summary>Gives what takes the blocks of the only device.</summary>
    public IReadOnlyList<IBlockListener> Blocks(ISampleSource source) => [taps.Only(source), acts.Meter.Only(source)];

    /// <inheritdoc/>
    public void Dispose()
    {
        server.Dispose();
        acts.Dispose();
    }
}
