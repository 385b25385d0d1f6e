using Microsoft.AspNetCore.Http;
using Serilog;
using StrokeWatch.Configuration;
using StrokeWatch.Page.Tuning;

namespace StrokeWatch.Page.Access;

/// <summary>What is done by the page, and by whom: the paths that take a POST, and those that tell who is signed in.</summary>
internal sealed class PageActs : IDisposable
{
    private const string SignIn = "/api/v1/sign-in", SignOut = "/api/v1/sign-out", Session = "/api/v1/session";

    private readonly PageAccess access;
    private readonly AlarmActs alarms;
    private readonly TuningDesk desk;
    private readonly TuningActs tuning;
    private readonly BookActs book;

    private PageActs(PageAccess access, AlarmActs alarms, BookActs book, TuningMeter meter, TuningDesk desk)
    {
        (this.access, this.alarms, this.book, Meter, this.desk) = (access, alarms, book, meter, desk);
        tuning = new(access, desk);
    }

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
        var meter = new TuningMeter(sight.Feeder, time);
        var tuning = sight.Tuning ?? new(sight.Feeder, null, false, null);
        return new(access, new(access, sight.Lives.Ask, () => sight.Lives.Now, time), new(access, tuning, time), meter, new(tuning, meter, time, log));
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
                _ => alarms.Find(path) ?? tuning.Find(path) ?? book.Find(path),
            }
            : Reads(path) is { } read && (HttpMethods.IsGet(request.Method) || HttpMethods.IsHead(request.Method)) ? read
            : Reads(path) is null && (path is SignIn or SignOut || (alarms.Find(path) ?? tuning.Find(path) ?? book.Find(path)) is not null) ? OnlyPost
            : null;
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        desk.Dispose();
        access.Dispose();
    }

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
