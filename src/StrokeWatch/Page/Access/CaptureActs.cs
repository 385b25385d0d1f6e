using Microsoft.AspNetCore.Http;
using StrokeWatch.Page.Captures;

namespace StrokeWatch.Page.Access;

/// <summary>Keeps captures from being removed to make room, and lets them go again; each with the name of who is signed in.</summary>
internal sealed class CaptureActs(PageAccess access, CaptureList list, TimeProvider time)
{
    private const string Keeps = "/api/v1/captures/keep", Releases = "/api/v1/captures/release";
    private const int MostName = 200, MostReason = 200;

    /// <summary>Finds what a POST to a path does; null where it is none of these.</summary>
    public Func<HttpContext, Task>? Find(string path) => path switch
    {
        Keeps => context => access.As(context, PageRight.KeepCapture, caller => Do(context, caller, keep: true)),
        Releases => context => access.As(context, PageRight.KeepCapture, caller => Do(context, caller, keep: false)),
        _ => null,
    };

    private async Task Do(HttpContext context, Caller caller, bool keep)
    {
        var body = await PageBody.Read(context, keep ? ["name", "reason"] : ["name"]).ConfigureAwait(false);
        var (name, reason) = (body.Text("name", MostName), keep ? body.Text("reason", MostReason) : null);
        if (string.IsNullOrEmpty(name))
        {
            body.Refuse(StatusCodes.Status400BadRequest, "a `name` was expected: that of a capture in /api/v1/captures");
        }

        if (body.Trouble is var (status, sentence))
        {
            await PageJson.Refuse(context, status, sentence).ConfigureAwait(false);
            return;
        }

        try
        {
            if (list.Find(name!) is not { } file)
            {
                await PageJson.Refuse(context, StatusCodes.Status404NotFound, "there is no capture of that name; /api/v1/captures lists those there are").ConfigureAwait(false);
                return;
            }

            var why = new string([.. (reason ?? "").Select(letter => char.IsControl(letter) ? ' ' : letter)]).Trim();
            var refusal = list.Pins is not { } pins ? $"{file.Name} is never removed: no quota is set for captures" : keep ? pins.Keep(file.Name, caller.User.Name, why, time.GetUtcNow()) : pins.Release(file.Name);
            if (refusal is not null)
            {
                await PageJson.Refuse(context, StatusCodes.Status409Conflict, refusal).ConfigureAwait(false);
                return;
            }

            var listed = list.Listed(file);
            await PageJson.Answer(context, writer =>
            {
                writer.WriteStartObject();
                writer.WritePropertyName("capture");
                CaptureJson.One(writer, listed);
                writer.WriteEndObject();
            }).ConfigureAwait(false);
        }
        catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException)
        {
            await PageJson.Refuse(context, StatusCodes.Status503ServiceUnavailable, "the folder of captures cannot be written; look at its rights and its disk").ConfigureAwait(false);
        }
    }
}
