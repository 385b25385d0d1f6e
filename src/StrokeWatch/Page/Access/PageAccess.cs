using System.Globalization;
using System.Net;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using Microsoft.AspNetCore.Http;
using Serilog;
using StrokeWatch.Configuration;

namespace StrokeWatch.Page.Access;

/// <summary>Signs people in and out, and says who asks: a browser by its session, a program by its token.</summary>
internal sealed class PageAccess : IDisposable
{
    /// <summary>The header by which a page of ours says that it is one: no form and no link of another site can send it.</summary>
    public const string Header = "X-StrokeWatch";

    private const string Nobody = "nobody can sign in to this page: [page] users names no file of users";
    private const string WrongPair = "name and password do not fit";
    private const int MostWaiting = 8;

    private readonly PageUsers? users;
    private readonly PageSettings settings;
    private readonly PageSessions sessions;
    private readonly SignInBrake brake;
    private readonly ILogger log;

    /// <summary>However many sign in, the processor belongs to the measurement.</summary>
    private readonly SemaphoreSlim turn = new(1);

    private int waiting;

    /// <summary>Makes it; nobody can sign in where no file of users is named.</summary>
    public PageAccess(PageSettings settings, TimeProvider time, ILogger log)
    {
        (this.settings, this.log) = (settings, log);
        users = settings.Users is { } path ? new(path, time, log) : null;
        sessions = new(time, settings.Rest, settings.Age);
        brake = new(time);
    }

    /// <summary>Gets whether anybody can sign in.</summary>
    public bool Possible => users is not null;

    /// <summary>Gets how long operators may put an alarm aside.</summary>
    public TimeSpan OperatorShelf => settings.OperatorShelf;

    /// <summary>Does something as somebody who may do it; all others are told why not.</summary>
    public Task As(HttpContext context, PageRight right, Func<Caller, Task> work)
    {
        if (Who(context, out var status, out var sentence) is not { } caller)
        {
            if (status == StatusCodes.Status401Unauthorized)
            {
                context.Response.Headers.WWWAuthenticate = "Bearer";
            }

            return PageJson.Refuse(context, status, sentence);
        }

        return PageRoles.May(caller.User.Role, right) ? work(caller) : PageJson.Refuse(context, StatusCodes.Status403Forbidden, Short(caller.User, right));
    }

    /// <summary>Says that somebody may not do something.</summary>
    public static string Short(PageUser user, PageRight right) =>
        $"{user.Name} is signed in as {PageRoles.Name(user.Role)}, and this is for the role {PageRoles.Name(PageRoles.Needed(right))}{(PageRoles.Needed(right) == PageRole.Engineer ? "" : " or above")}";

    /// <summary>Answers who is signed in.</summary>
    public Task Session(HttpContext context)
    {
        var user = Secret(context) is { } secret && sessions.Find(secret, acts: false) is { } name ? users?.Now.Find(name) : null;
        return PageJson.Answer(context, writer => Write(writer, user));
    }

    /// <summary>Signs somebody in.</summary>
    public async Task SignIn(HttpContext context)
    {
        var body = await PageBody.Read(context, "name", "password").ConfigureAwait(false);
        var (name, password) = (body.Text("name", 100), body.Text("password", PasswordHash.Most));
        if (users is null)
        {
            body.Refuse(StatusCodes.Status403Forbidden, Nobody);
        }
        else if (Foreign(context.Request) is { } foreign)
        {
            body.Refuse(StatusCodes.Status403Forbidden, foreign);
        }
        else if (string.IsNullOrWhiteSpace(name) || string.IsNullOrEmpty(password))
        {
            body.Refuse(StatusCodes.Status400BadRequest, "`name` and `password` were expected");
        }

        if (body.Trouble is var (status, sentence))
        {
            await PageJson.Refuse(context, status, sentence).ConfigureAwait(false);
            return;
        }

        name = name!.Trim();
        var address = context.Connection.RemoteIpAddress ?? IPAddress.None;
        if (brake.Begin(address, name) is { } wait)
        {
            await Later(context, wait, StatusCodes.Status429TooManyRequests, "too many failed").ConfigureAwait(false);
            return;
        }

        var user = users!.Now.Find(name);
        if (await Fits(user?.Password ?? PasswordHash.Nobody, password!, context.RequestAborted).ConfigureAwait(false) is not { } fits)
        {
            await Later(context, TimeSpan.FromSeconds(2), StatusCodes.Status503ServiceUnavailable, "too many sign in at once").ConfigureAwait(false);
            return;
        }

        if (user is null || !fits)
        {
            // A name that is nobody's may be a password in the wrong field.
            log.Warning("Page: sign-in refused for {Name:l} from {Address:l}", user?.Name ?? "an unknown name", address.ToString());
            await PageJson.Refuse(context, StatusCodes.Status401Unauthorized, WrongPair).ConfigureAwait(false);
            return;
        }

        brake.Succeeded(address, name);
        log.Information("Page: {Name:l} signed in as {Role:l} from {Address:l}", user.Name, PageRoles.Name(user.Role), address.ToString());
        context.Response.Cookies.Append(Cookie(context), sessions.Begin(user.Name), Kept(context));
        await PageJson.Answer(context, writer => Write(writer, user)).ConfigureAwait(false);
    }

    /// <summary>Signs out.</summary>
    public Task SignOut(HttpContext context)
    {
        if (Foreign(context.Request) is { } foreign)
        {
            return PageJson.Refuse(context, StatusCodes.Status403Forbidden, foreign);
        }

        if (Secret(context) is { } secret)
        {
            if (sessions.Find(secret, acts: false) is { } name)
            {
                log.Information("Page: {Name:l} signed out", name);
            }

            sessions.End(secret);
        }

        context.Response.Cookies.Delete(Cookie(context), Kept(context));
        return PageJson.Answer(context, writer => Write(writer, null));
    }

    /// <inheritdoc/>
    public void Dispose() => turn.Dispose();

    private Caller? Who(HttpContext context, out int status, out string sentence)
    {
        (status, sentence) = (StatusCodes.Status401Unauthorized, "sign in first");
        if (users is null)
        {
            (status, sentence) = (StatusCodes.Status403Forbidden, Nobody);
            return null;
        }

        var authorization = context.Request.Headers.Authorization.ToString();
        if (authorization.Length > 0)
        {
            sentence = "this token is not known; strokewatch page token makes one";
            return authorization.StartsWith("Bearer ", StringComparison.OrdinalIgnoreCase) && Token(authorization[7..].Trim()) is { } bearer ? new(bearer, Browser: false) : null;
        }

        if (Secret(context) is not { } secret)
        {
            return null;
        }

        if (Foreign(context.Request) is { } foreign)
        {
            (status, sentence) = (StatusCodes.Status403Forbidden, foreign);
            return null;
        }

        sentence = "the session has ended; sign in again";
        return sessions.Find(secret, acts: true) is { } name && users.Now.Find(name) is { } user ? new(user, Browser: true) : null;
    }

    private PageUser? Token(string token)
    {
        var (hash, file) = (Encoding.ASCII.GetBytes(PageToken.HashOf(token)), users!.Now);
        string? name = null;
        foreach (var kept in file.Tokens)
        {
            name = CryptographicOperations.FixedTimeEquals(hash, Encoding.ASCII.GetBytes(kept.Hash)) ? kept.User : name;
        }

        return name is null ? null : file.Find(name);
    }

    /// <summary>Says why a request is not taken for this page's own; where it comes from is looked at by <see cref="PageGuard"/>, that it says so at all is looked at here.</summary>
    private static string? Foreign(HttpRequest request) =>
        request.Headers[Header] != "1" ? $"only this page itself may ask for this from a browser: the header {Header} is missing"
        : request.Headers.Origin.Count == 0 && request.Headers["Sec-Fetch-Site"] != "same-origin" ? "only this page itself may ask for this from a browser: it does not say where it comes from" : null;

    /// <summary>Says whether a password fits; null where too many ask at once.</summary>
    private async Task<bool?> Fits(PasswordHash hash, string password, CancellationToken stop)
    {
        try
        {
            if (Interlocked.Increment(ref waiting) > MostWaiting)
            {
                return null;
            }

            await turn.WaitAsync(stop).ConfigureAwait(false);
            try
            {
                return await Task.Run(() => hash.Fits(password), stop).ConfigureAwait(false);
            }
            finally
            {
                turn.Release();
            }
        }
        finally
        {
            Interlocked.Decrement(ref waiting);
        }
    }

    private static Task Later(HttpContext context, TimeSpan wait, int status, string why)
    {
        var seconds = Math.Max(1, (int)Math.Ceiling(wait.TotalSeconds));
        context.Response.Headers.RetryAfter = seconds.ToString(CultureInfo.InvariantCulture);
        return PageJson.Refuse(context, status, FormattableString.Invariant($"{why}; try again in {seconds} s"));
    }

    // Browsers keep cookies by host, whatever the port: several feeders' pages on one board would sign each other out.
    private static string Cookie(HttpContext context) => string.Create(CultureInfo.InvariantCulture, $"{(context.Request.IsHttps ? "__Host-" : "")}strokewatch-{context.Connection.LocalPort}");

    private static CookieOptions Kept(HttpContext context) => new() { HttpOnly = true, SameSite = SameSiteMode.Strict, Secure = context.Request.IsHttps, Path = "/" };

    private static string? Secret(HttpContext context) => context.Request.Cookies[Cookie(context)] is { Length: > 0 and < 100 } secret ? secret : null;

    private void Write(Utf8JsonWriter writer, PageUser? user)
    {
        writer.WriteStartObject();
        writer.WriteBoolean("possible", Possible);
        writer.WriteString("reason", Possible ? null : Nobody);
        writer.WriteBoolean("signed_in", user is not null);
        writer.WriteString("name", user?.Name);
        writer.WriteString("role", user is null ? null : PageRoles.Name(user.Role));
        writer.WriteStartArray("may");
        foreach (var right in Enum.GetValues<PageRight>().Where(right => user is not null && PageRoles.May(user.Role, right)))
        {
            writer.WriteStringValue(PageRoles.Name(right));
        }

        writer.WriteEndArray();
        writer.WriteNumber("operators_shelve_min", (int)OperatorShelf.TotalMinutes);
        writer.WriteNumber("idle_min", (int)settings.Rest.TotalMinutes);
        writer.WriteEndObject();
    }
}
