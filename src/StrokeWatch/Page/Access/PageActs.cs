using Microsoft.AspNetCore.Http;
using Serilog;
using StrokeWatch.Configuration;
using StrokeWatch.Outputs.Captures;
using StrokeWatch.Page.Tuning;
using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Page.Access;

/// <summary>What is done by the page, and by whom: the paths that take a POST, and those that tell who is signed in.</summary>
internal sealed class PageActs : IDisposable
{
    private const string SignIn = "/api/v1/sign-in", SignOut = "/api/v1/sign-out", Session = "/api/v1/session";

    private readonly PageAccess access;
    private readonly TuningDesk desk;
    private readonly TuningActs tuning;
    private readonly IReadOnlyList<Func<string, Func<HttpContext, Task>?>> finds;

    private PageActs(PageAccess access, TuningSettings settings, IReadOnlyList<Func<string, Func<HttpContext, Task>?>> finds, TuningMeter meter, TuningDesk desk)
    {
        (this.access, Tuning, Meter, this.desk) = (access, settings, meter, desk);
        tuning = new(access, desk);
        this.finds = [.. finds, tuning.Find];
    }

    /// <summary>Gets what the tuning session, the book and baselines rest on.</summary>
    public TuningSettings Tuning { get; }

    /// <summary>Gets what measures for the tuning session; it must hear the chain.</summary>
    public TuningMeter Meter { get; }

    /// <summary>Gets whether anybody can sign in.</summary>
    public bool Possible => access.Possible;

    /// <summary>Makes it, and warns of what lets others listen or keeps browsers out.</summary>
    public static PageActs Open(PageSettings settings, PageSight sight, TimeProvider time, ILogger log)
    {
        if (settings.Unencrypted)
        {
            log.Warning(
                "Page: served without encryption at {Address:l}: whoever listens on that network reads passwords and can act as whoever is signed in; [page] certificate and key end that",
                settings.Listen.ToString());
        }

        if (settings.Certificate is { } certificate && time.GetUtcNow() > certificate.Own.NotAfter)
        {
            log.Warning("Page: its certificate ended on {Ended:yyyy-MM-dd}; browsers will refuse it: renew it and start again", certificate.Own.NotAfter.ToUniversalTime());
        }

        var access = new PageAccess(settings, time, log);
        var tuning = (sight.Tuning ?? new(sight.Feeder, null, false, null)) with { Captures = sight.Captures, CaptureBytes = sight.Waveforms?.TrialQuotaBytes ?? TrialRoom.UsualBytes };
        var meter = new TuningMeter(sight.Feeder, time)
        {
            Recorder = new([.. sight.Sources.Select(source => (IReadOnlyList<SensorPlace>)[.. source.Info.Places.Distinct()])], time),
            CaptureStem = () => tuning.CaptureStem(time.GetUtcNow()),
            MakeRoom = tuning.MakeRoom,
            Log = log,
        };
        return new(
            access, tuning,
            [
                new AlarmActs(access, sight.Lives.Ask, () => sight.Lives.Now, time).Find, new BookActs(access, tuning, time).Find,
                new CaptureActs(access, sight.CaptureList, time).Find, new BaselineActs(access, tuning.Baseline, time).Find,
            ],
            meter, new(tuning, meter, time, log));
    }

    /// <summary>Finds what answers a request; null where it is none of these.</summary>
    public Func<HttpContext, Task>? Find(HttpRequest request)
    {
        var path = request.Path.Value ?? "";
        return HttpMethods.IsPost(request.Method)
            ? path switch
            {
                SignIn => access.SignIn,
                SignOut => access.SignOut,
                _ => Act(path),
            }
            : Reads(path) is { } read && (HttpMethods.IsGet(request.Method) || HttpMethods.IsHead(request.Method)) ? read
            : Reads(path) is null && (path is SignIn or SignOut || Act(path) is not null) ? OnlyPost
            : null;
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        desk.Dispose();
        access.Dispose();
    }

    private Func<HttpContext, Task>? Act(string path) => finds.Select(find => find(path)).FirstOrDefault(act => act is not null);

    private Func<HttpContext, Task>? Reads(string path) => path switch
    {
        Session => access.Session,
        TuningActs.Reads => tuning.Look,
        _ => null,
    };

    private static Task OnlyPost(HttpContext context)
    {
        context.Response.Headers.Allow = "POST";
        return PageJson.Refuse(context, StatusCodes.Status405MethodNotAllowed, "this is done by a POST");
    }
}
