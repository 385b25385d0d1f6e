using Microsoft.AspNetCore.Http;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Configuration;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Pipeline;
using StrokeWatch.Reports;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Sources;

namespace StrokeWatch.Page.Captures;

/// <summary>Answers about captures: the list, a look, a replay as <c>replay --json</c> gives it, and the file itself. One is read at a time, on a thread beneath the measurement's.</summary>
/// <param name="feeder">The feeder of captures that have no feeder file beside them.</param>
/// <param name="list">The captures.</param>
internal sealed class CaptureAnswers(FeederDescription feeder, CaptureList list) : IDisposable
{
    /// <summary>Larger ones are left to the command line: 512 MB are some three hours of three axes.</summary>
    private const long MostBytes = 512_000_000;

    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(20);

    private readonly SemaphoreSlim turn = new(1);

    /// <summary>Answers with the list.</summary>
    public Task List(HttpContext context) => PageQuery.Of(context).Trouble is { } trouble
        ? PageJson.Refuse(context, StatusCodes.Status400BadRequest, trouble)
        : Guarded(context, () => PageJson.Answer(context, writer => CaptureJson.List(writer, list)));

    /// <summary>Answers with a whole capture, thinned to smallest and largest of each column.</summary>
    public Task Look(HttpContext context)
    {
        var query = PageQuery.Of(context, "name", "points");
        var points = query.Whole("points", 10, 2000, 600);
        return Answer(context, query, (file, gone) =>
        {
            using var source = new AbandonedSource(CaptureFile.Open(file.FullName, SensorChannels.Wanted(Beside(file))), gone);
            var look = CaptureLook.Of(source, points);
            return PageJson.Bytes(writer => CaptureJson.Look(writer, file.Name, look));
        });
    }

    /// <summary>Answers with what the chain makes of a capture.</summary>
    public Task Replay(HttpContext context) => Answer(context, PageQuery.Of(context, "name"), (file, gone) =>
    {
        var own = Beside(file);
        using var source = new AbandonedSource(CaptureFile.Open(file.FullName, SensorChannels.Wanted(own)), gone);
        var stream = new MemoryStream();
        ReplayJson.Write(stream, [Replayer.Run(file.Name, source, own, new AlarmDelays())]);
        return stream.ToArray();
    });

    /// <summary>Answers with the file.</summary>
    public Task Download(HttpContext context)
    {
        var query = PageQuery.Of(context, "name");
        return Found(context, query, file =>
        {
            context.Response.ContentType = "application/octet-stream";
            context.Response.ContentLength = file.Length;
            context.Response.Headers.ContentDisposition = $"attachment; filename*=UTF-8''{Uri.EscapeDataString(file.Name)}";
            return HttpMethods.IsHead(context.Request.Method) ? Task.CompletedTask : context.Response.SendFileAsync(file.FullName, 0, file.Length, context.RequestAborted);
        });
    }

    /// <inheritdoc/>
    public void Dispose() => turn.Dispose();

    private static async Task Guarded(HttpContext context, Func<Task> answer)
    {
        try
        {
            await answer().ConfigureAwait(false);
        }
        catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException && !context.Response.HasStarted)
        {
            await PageJson.Refuse(context, StatusCodes.Status503ServiceUnavailable, "the folder of captures cannot be read; look at its rights and its disk").ConfigureAwait(false);
        }
    }

    private Task Found(HttpContext context, PageQuery query, Func<FileInfo, Task> answer)
    {
        var name = query.Word("name");
        if (query.Trouble is { } trouble)
        {
            return PageJson.Refuse(context, StatusCodes.Status400BadRequest, trouble);
        }

        return Guarded(context, () => list.Find(name) is { } file
            ? answer(file)
            : PageJson.Refuse(context, StatusCodes.Status404NotFound, "there is no capture of that name; /api/v1/captures lists those there are"));
    }

    private Task Answer(HttpContext context, PageQuery query, Func<FileInfo, CancellationToken, ReadOnlyMemory<byte>> work) => Found(context, query, async file =>
    {
        if (file.Length > MostBytes)
        {
            await PageJson.Refuse(context, StatusCodes.Status409Conflict, "this capture is too large to be read here; download it, or use `strokewatch replay` on the machine").ConfigureAwait(false);
            return;
        }

        if (!await turn.WaitAsync(Patience, context.RequestAborted).ConfigureAwait(false))
        {
            await PageJson.Refuse(context, StatusCodes.Status503ServiceUnavailable, "another capture is being read; ask again later").ConfigureAwait(false);
            return;
        }

        ReadOnlyMemory<byte> answer;
        try
        {
            answer = await Beneath(() => work(file, context.RequestAborted)).ConfigureAwait(false);
        }
        catch (CaptureException unreadable)
        {
            await PageJson.Refuse(context, StatusCodes.Status409Conflict, unreadable.Message.Replace(file.FullName, file.Name, StringComparison.Ordinal)).ConfigureAwait(false);
            return;
        }
        catch (OperationCanceledException) when (context.RequestAborted.IsCancellationRequested)
        {
            return;
        }
        finally
        {
            turn.Release();
        }

        await PageJson.Answer(context, answer, "application/json; charset=utf-8").ConfigureAwait(false);
    });

    /// <summary>Does work on a thread of its own that the measurement's threads come before.</summary>
    private static Task<ReadOnlyMemory<byte>> Beneath(Func<ReadOnlyMemory<byte>> work)
    {
        var done = new TaskCompletionSource<ReadOnlyMemory<byte>>(TaskCreationOptions.RunContinuationsAsynchronously);
        var thread = new Thread(() =>
        {
            try
            {
                done.SetResult(work());
            }
            catch (Exception trouble)
            {
                done.SetException(trouble);
            }
        })
        { IsBackground = true, Name = "capture", Priority = ThreadPriority.BelowNormal };
        thread.Start();
        return done.Task;
    }

    /// <summary>Gives the feeder of a capture: that of the file beside it, else the one that is watched.</summary>
    private FeederDescription Beside(FileInfo file)
    {
        var beside = Path.ChangeExtension(file.FullName, null) + ".feeder.toml";
        if (!File.Exists(beside))
        {
            return feeder;
        }

        var read = FeederFile.Read(beside);
        return read.Value ?? throw new CaptureException($"{Path.GetFileName(beside)} beside it cannot be used: {read.Errors[0].ToString().Replace(beside, Path.GetFileName(beside), StringComparison.Ordinal)}");
    }
}
