using System.Text.Json;
using Microsoft.AspNetCore.Http;
using StrokeWatch.Assessment.Baselines;
using StrokeWatch.Configuration;
using StrokeWatch.Configuration.Toml;

namespace StrokeWatch.Page.Books;

/// <summary>Answers with every baseline that the feeder ever had.</summary>
/// <param name="path">The file of baselines; null where none is kept.</param>
internal sealed class BaselineAnswers(string? path)
{
    private const string NoFile = "no file of baselines is kept";

    /// <summary>Answers with the versions, the one in force last.</summary>
    public Task List(HttpContext context)
    {
        if (PageQuery.Of(context).Trouble is { } trouble)
        {
            return PageJson.Refuse(context, StatusCodes.Status400BadRequest, trouble);
        }

        var errors = new ConfigurationErrors(Path.GetFileName(path ?? ""));
        var history = path is null ? BaselineHistory.Empty : BaselineFile.Read(path, errors);
        return history is null
            ? PageJson.Refuse(context, StatusCodes.Status503ServiceUnavailable, string.Join(' ', errors))
            : PageJson.Answer(context, writer =>
            {
                writer.WriteStartObject();
                writer.WriteString("reason", path is null ? NoFile : null);
                writer.WriteStartArray("may_hold");
                foreach (var feature in BaselineReadings.Followed)
                {
                    writer.WriteStringValue(feature.Name);
                }

                writer.WriteEndArray();
                writer.WriteStartArray("versions");
                foreach (var version in history.Versions)
                {
                    Write(writer, version, ReferenceEquals(version, history.Current));
                }

                writer.WriteEndArray();
                writer.WriteEndObject();
            });
    }

    /// <summary>Writes a version.</summary>
    public static void Write(Utf8JsonWriter writer, Baseline version, bool inForce)
    {
        writer.WriteStartObject();
        writer.WriteNumber("version", version.Version);
        writer.WriteBoolean("in_force", inForce);
        writer.WriteString("origin", version.Origin == BaselineOrigin.Learned ? "learned" : "told");
        PageJson.Utc(writer, "made_utc", version.Made);
        writer.WriteString("note", version.Note);
        writer.WriteStartArray("features");
        foreach (var feature in version.Features)
        {
            writer.WriteStartObject();
            writer.WriteString("name", feature.Name);
            PageJson.Number(writer, "mean", feature.Mean, 9);
            PageJson.Number(writer, "spread", feature.Spread, 9);
            PageJson.Number(writer, "readings", feature.Count, 0);
            PageJson.Utc(writer, "from_utc", feature.From);
            PageJson.Utc(writer, "to_utc", feature.To);
            writer.WriteEndObject();
        }

        writer.WriteEndArray();
        writer.WriteEndObject();
    }
}
