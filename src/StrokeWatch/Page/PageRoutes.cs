using System.Text;
using Microsoft.AspNetCore.Http;
using StrokeWatch.Page.Access;
using StrokeWatch.Page.Health;

namespace StrokeWatch.Page;

/// <summary>What is served where. Nothing comes from the disk by its name, so that no path leads out.</summary>
internal sealed class PageRoutes : IDisposable
{
    private readonly PageGuard guard;
    private readonly LiveBoard board;
    private readonly LiveFeed feed;
    private readonly HistoryAnswers history;
    private readonly Dictionary<string, Func<HttpContext, Task>> routes;

    /// <summary>Makes the table.</summary>
    /// <param name="board">The newest reading.</param>
    /// <param name="feed">Those who follow.</param>
    /// <param name="history">Answers from the store.</param>
    /// <param name="health">Tells how the station is, for the metrics.</param>
    /// <param name="guard">Who is answered at all.</param>
    /// <param name="more">Further answers, by their paths.</param>
    public PageRoutes(LiveBoard board, LiveFeed feed, HistoryAnswers history, Func<StationHealth?> health, PageGuard guard, Dictionary<string, Func<HttpContext, Task>> more)
    {
        (this.board, this.feed, this.history, this.guard) = (board, feed, history, guard);
        var assets = new PageAssets();
        routes = new(more, StringComparer.Ordinal)
        {
            ["/"] = context => PageJson.Answer(context, assets.Index, PageAssets.TypeOf("index.html")),
            ["/words.json"] = Asset("words.en.json"),
            ["/api/v1/status"] = context => PageJson.Answer(context, writer => StatusJson.Write(writer, board.Now)),
            ["/api/v1/live"] = Follow,
            ["/api/v1/trend"] = history.Trend,
            ["/api/v1/alarms"] = history.Alarms,
            ["/api/v1/openapi.json"] = Asset("openapi.json"),
            ["/metrics"] = context => PageJson.Answer(context, Encoding.UTF8.GetBytes(MetricsText.Of(board.Now, feed, health())), MetricsText.Type),
        };
        foreach (var name in PageAssets.Files.Where(name => Path.GetExtension(name) is ".js" or ".css" or ".svg"))
        {
            routes[$"/{name}"] = Asset(name);
        }
    }

    /// <summary>Gets what is done by the page; null where it only shows.</summary>
    public PageActs? Acts { get; init; }

    /// <summary>Gets the paths.</summary>
    public IReadOnlyCollection<string> Paths => routes.Keys;

    /// <summary>Answers a request.</summary>
    public Task Answer(HttpContext context)
    {
        PageGuard.Head(context.Response.Headers);
        var act = Acts?.Find(context.Request);
        if (guard.Trouble(context.Request, act is null ? 0 : PageBody.MostBytes) is var (status, sentence))
        {
            context.Response.Headers.Connection = "close";
            return PageJson.Refuse(context, status, sentence);
        }

        if (act is not null)
        {
            return act(context);
        }

        if (!routes.TryGetValue(context.Request.Path.Value ?? "", out var route))
        {
            return PageJson.Refuse(context, StatusCodes.Status404NotFound, "there is nothing here; /api/v1/openapi.json says what there is");
        }

        if (HttpMethods.IsGet(context.Request.Method) || HttpMethods.IsHead(context.Request.Method))
        {
            return route(context);
        }

        context.Response.Headers.Allow = "GET, HEAD";
        return PageJson.Refuse(context, StatusCodes.Status405MethodNotAllowed, "this can only be read");
    }

    /// <inheritdoc/>
    public void Dispose() => history.Dispose();

    private static Func<HttpContext, Task> Asset(string name)
    {
        var (bytes, type) = (PageAssets.Read(name), PageAssets.TypeOf(name));
        return context => PageJson.Answer(context, bytes, type);
    }

    /// <summary>Sends events until the reader goes away.</summary>
    private async Task Follow(HttpContext context)
    {
        context.Response.ContentType = "text/event-stream; charset=utf-8";
        if (HttpMethods.IsHead(context.Request.Method))
        {
            return;
        }

        if (feed.Join() is not { } follower)
        {
            context.Response.Headers.RetryAfter = "10";
            await PageJson.Refuse(context, StatusCodes.Status503ServiceUnavailable, "too many follow live; ask /api/v1/status from time to time").ConfigureAwait(false);
            return;
        }

        try
        {
            var body = context.Response.Body;
            await body.WriteAsync("retry: 1000\n\n"u8.ToArray(), context.RequestAborted).ConfigureAwait(false);
            await body.WriteAsync(board.Frame().Bytes, context.RequestAborted).ConfigureAwait(false);
            await body.FlushAsync(context.RequestAborted).ConfigureAwait(false);
            await foreach (var frame in follower.Reader.ReadAllAsync(context.RequestAborted).ConfigureAwait(false))
            {
                await body.WriteAsync(frame.Bytes, context.RequestAborted).ConfigureAwait(false);
                await body.FlushAsync(context.RequestAborted).ConfigureAwait(false);
            }
        }
        catch (OperationCanceledException) when (context.RequestAborted.IsCancellationRequested)
        {
            // The reader has gone away, which is its right.
        }
        finally
        {
            feed.Leave(follower);
        }
    }
}
