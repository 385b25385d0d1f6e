using Microsoft.AspNetCore.Http;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Pipeline.Alarms;

namespace StrokeWatch.Page.Access;

/// <summary>What people do to alarms: each act is journalled with the name of who did it before it is answered.</summary>
/// <param name="access">Who may do what.</param>
/// <param name="ask">Asks the alarms; answers null once it has taken effect, or why it was refused.</param>
/// <param name="now">Gives the alarms as they stand.</param>
/// <param name="time">The clock.</param>
internal sealed class AlarmActs(PageAccess access, Func<AlarmRequest, Task<string?>> ask, Func<IReadOnlyList<AlarmView>> now, TimeProvider time)
{
    private const string Path = "/api/v1/alarms/";
    private const int MostMinutes = 7 * 24 * 60;
    private const int MostReason = 200;

    /// <summary>The measuring thread answers with its next read; later than this it does not.</summary>
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(5);

    /// <summary>Gets the acts by their last word of the path, with what they need.</summary>
    public static IReadOnlyDictionary<string, (AlarmAct Act, PageRight Right)> All { get; } = new Dictionary<string, (AlarmAct, PageRight)>(StringComparer.Ordinal)
    {
        ["acknowledge"] = (AlarmAct.Acknowledge, PageRight.Acknowledge),
        ["reset"] = (AlarmAct.Reset, PageRight.Acknowledge),
        ["shelve"] = (AlarmAct.Shelve, PageRight.Shelve),
        ["unshelve"] = (AlarmAct.Unshelve, PageRight.Shelve),
        ["out-of-service"] = (AlarmAct.TakeOutOfService, PageRight.OutOfService),
        ["return-to-service"] = (AlarmAct.ReturnToService, PageRight.OutOfService),
    };

    /// <summary>Finds the act of a path; null where it is none. An alarm's own id may hold a slash.</summary>
    public Func<HttpContext, Task>? Find(string path)
    {
        var last = path.LastIndexOf('/');
        return path.StartsWith(Path, StringComparison.Ordinal) && last > Path.Length && All.TryGetValue(path[(last + 1)..], out var act)
            ? context => access.As(context, act.Right, caller => Do(context, caller, path[Path.Length..last].Replace("%2F", "/", StringComparison.OrdinalIgnoreCase), act.Act))
            : null;
    }

    private async Task Do(HttpContext context, Caller caller, string written, AlarmAct act)
    {
        var body = await PageBody.Read(context, act == AlarmAct.Shelve ? ["minutes", "reason"] : ["reason"]).ConfigureAwait(false);
        var reason = new string([.. (body.Text("reason", MostReason) ?? "").Select(letter => char.IsControl(letter) ? ' ' : letter)]).Trim();
        var minutes = act == AlarmAct.Shelve ? body.Whole("minutes", 1, MostMinutes) : null;
        if (!AlarmId.TryParse(written, out var id))
        {
            body.Refuse(StatusCodes.Status404NotFound, "there is no such alarm; /api/v1/status gives their ids");
        }
        else if (act == AlarmAct.Shelve && minutes is null)
        {
            body.Refuse(StatusCodes.Status400BadRequest, "`minutes` were expected: for how long to put it aside");
        }
        else if (act is AlarmAct.Shelve or AlarmAct.TakeOutOfService && reason.Length == 0)
        {
            body.Refuse(StatusCodes.Status400BadRequest, "a `reason` was expected: whoever comes next must know why");
        }
        else if (minutes > access.OperatorShelf.TotalMinutes && !PageRoles.May(caller.User.Role, PageRight.ShelveLonger))
        {
            body.Refuse(StatusCodes.Status403Forbidden, FormattableString.Invariant($"operators may put an alarm aside for {access.OperatorShelf.TotalMinutes:0} min at most; a technician may for longer"));
        }

        if (body.Trouble is var (status, sentence))
        {
            await PageJson.Refuse(context, status, sentence).ConfigureAwait(false);
            return;
        }

        await Ask(context, new(id, act, caller.User.Name, minutes is { } known ? TimeSpan.FromMinutes(known) : null, Words(id, caller, reason))).ConfigureAwait(false);
    }

    private async Task Ask(HttpContext context, AlarmRequest request)
    {
        string? refusal;
        try
        {
            refusal = await ask(request).WaitAsync(Patience, time, context.RequestAborted).ConfigureAwait(false);
        }
        catch (TimeoutException)
        {
            await PageJson.Refuse(context, StatusCodes.Status503ServiceUnavailable, "the measurement does not answer; what was asked may still be done: look at the alarm again").ConfigureAwait(false);
            return;
        }

        if (refusal is not null)
        {
            await PageJson.Refuse(context, StatusCodes.Status409Conflict, refusal).ConfigureAwait(false);
            return;
        }

        var view = now().First(alarm => alarm.Id == request.Id);
        await PageJson.Answer(context, writer =>
        {
            writer.WriteStartObject();
            writer.WritePropertyName("alarm");
            StatusJson.Alarm(writer, view);
            writer.WriteEndObject();
        }).ConfigureAwait(false);
    }

    /// <summary>Gives what is said of the alarm from now on: what it is about stays, the reason follows it in brackets.</summary>
    private string Words(AlarmId id, Caller caller, string reason)
    {
        if (reason.Length == 0)
        {
            return "";
        }

        var said = now().FirstOrDefault(alarm => alarm.Id == id)?.Words ?? "";
        var about = said.IndexOf(" [", StringComparison.Ordinal) is >= 0 and var bracket ? said[..bracket] : said;
        return $"{(about.Length > 0 ? about : id.ToString())} [{caller.User.Name}: {reason}]";
    }
}
