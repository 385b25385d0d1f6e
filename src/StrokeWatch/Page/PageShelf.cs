using Serilog;
using StrokeWatch.Configuration;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Outputs.Store;
using StrokeWatch.Pipeline;
using StrokeWatch.Pipeline.Alarms;

namespace StrokeWatch.Page;

/// <summary>The page as the daemon holds it: the board that the chain feeds, and the server that shows it.</summary>
internal sealed class PageShelf : IDisposable
{
    private readonly PageServer server;

    private PageShelf(LiveBoard board, PageServer server) => (Board, this.server) = (board, server);

    /// <summary>Gets the board.</summary>
    public LiveBoard Board { get; }

    /// <summary>Gets what must hear the chain.</summary>
    public IReadOnlyList<IChainListener> Listeners => [Board];

    /// <summary>Makes the board and begins to serve it.</summary>
    public static PageShelf Open(
        PageSettings settings, FeederDescription feeder, string path, SqliteStore store, AlarmDesk lives, TimeProvider time, ILogger log, Action<string> say)
    {
        var feed = new LiveFeed();
        var board = new LiveBoard(feeder, time, feed, () => lives.Now, () => store.Health);
        return new(board, new(settings, board, feed, new(path, feeder.Name, time), time, log, say, () =>
        {
            if (settings.Needed)
            {
                lives.Failed("page");
            }
        }));
    }

    /// <inheritdoc/>
    public void Dispose() => server.Dispose();
}
