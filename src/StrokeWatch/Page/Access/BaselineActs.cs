using Microsoft.AspNetCore.Http;
using StrokeWatch.Assessment.Baselines;
using StrokeWatch.Configuration;
using StrokeWatch.Configuration.Toml;
using StrokeWatch.Page.Books;

namespace StrokeWatch.Page.Access;

/// <summary>Puts a baseline in force as the commands <c>baseline take</c> and <c>tell</c> do; the daemon takes it over with the next stretch of running.</summary>
/// <param name="access">Who may do what.</param>
/// <param name="path">The file of baselines; null where none is kept.</param>
/// <param name="time">The clock.</param>
internal sealed class BaselineActs(PageAccess access, string? path, TimeProvider time)
{
    private const string Takes = "/api/v1/baselines/take", Tells = "/api/v1/baselines/tell";
    private const int MostNote = 300, MostFeatures = 2000;

    /// <summary>Finds what a POST to a path does; null where it is none of these.</summary>
    public Func<HttpContext, Task>? Find(string path) => path switch
    {
        Takes => context => access.As(context, PageRight.SetBaseline, caller => Take(context, caller)),
        Tells => context => access.As(context, PageRight.SetBaseline, caller => Tell(context, caller)),
        _ => null,
    };

    private async Task Take(HttpContext context, Caller caller)
    {
        var body = await PageBody.Read(context, "version", "note").ConfigureAwait(false);
        var (version, note) = (body.Whole("version", 1, int.MaxValue), Note(body, caller));
        if (version is null)
        {
            body.Refuse(StatusCodes.Status400BadRequest, "a `version` was expected: the number of one in /api/v1/baselines");
        }

        await Do(context, body, (file, errors) => BaselineFile.Take(file, version!.Value, time.GetUtcNow(), note, errors)).ConfigureAwait(false);
    }

    private async Task Tell(HttpContext context, Caller caller)
    {
        var body = await PageBody.Read(context, "features", "note").ConfigureAwait(false);
        var (texts, note) = (body.Text("features", MostFeatures)?.Split(' ', StringSplitOptions.RemoveEmptyEntries) ?? [], Note(body, caller));
        var told = ToldFeatures.Read(texts, out var trouble);
        if (told is not { Count: > 0 })
        {
            body.Refuse(StatusCodes.Status400BadRequest, $"`features`: {trouble ?? "features with mean and spread were expected, as in natural_frequency_hz=66.2,0.1 stroke_mm=1.72,0.01"}");
        }

        await Do(context, body, (file, errors) => BaselineFile.Add(file, new() { Origin = BaselineOrigin.Told, Made = time.GetUtcNow(), Note = note, Features = told! }, errors)).ConfigureAwait(false);
    }

    private static string Note(PageBody body, Caller caller)
    {
        var words = new string([.. (body.Text("note", MostNote) ?? "").Select(letter => char.IsControl(letter) ? ' ' : letter)]).Trim();
        return words.Length > 0 ? $"{caller.User.Name}: {words}" : caller.User.Name;
    }

    private Task Do(HttpContext context, PageBody body, Func<string, ConfigurationErrors, Baseline?> add)
    {
        if (body.Trouble is var (status, sentence))
        {
            return PageJson.Refuse(context, status, sentence);
        }

        if (path is null)
        {
            return PageJson.Refuse(context, StatusCodes.Status409Conflict, "no file of baselines is kept");
        }

        // What is said of the file names it, not where it lies.
        var errors = new ConfigurationErrors(Path.GetFileName(path));
        return add(path, errors) is { } added
            ? PageJson.Answer(context, writer =>
            {
                writer.WriteStartObject();
                writer.WritePropertyName("baseline");
                BaselineAnswers.Write(writer, added, inForce: true);
                writer.WriteEndObject();
            })
            : PageJson.Refuse(context, StatusCodes.Status409Conflict, string.Join(' ', errors).Replace(path, Path.GetFileName(path), StringComparison.Ordinal));
    }
}
