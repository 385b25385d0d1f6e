using System.Text.Json;

namespace StrokeWatch.Commands;

/// <summary>The command <c>captures</c>, from a command line what the page shows and does.</summary>
/// <param name="surroundings">The streams.</param>
/// <param name="page">Asks the page.</param>
internal sealed class CapturesCommand(Surroundings surroundings, PageClient page)
{
    /// <summary>Prints the captures.</summary>
    public int Show(bool json) => page.Ask(HttpMethod.Get, "api/v1/captures", null, answer =>
    {
        var captures = answer.GetProperty("captures");
        if (json)
        {
            surroundings.Output.WriteLine(captures.GetRawText());
            return CommandLine.Well;
        }

        if (answer.GetProperty("reason").GetString() is { } reason)
        {
            surroundings.Output.WriteLine(reason);
        }

        foreach (var capture in captures.EnumerateArray())
        {
            Print(capture);
        }

        return CommandLine.Well;
    });

    /// <summary>Keeps a capture or lets it go.</summary>
    public int Do(string act, string name, string? reason)
    {
        using var body = new MemoryStream();
        using (var writer = new Utf8JsonWriter(body))
        {
            writer.WriteStartObject();
            writer.WriteString("name", name);
            if (reason is not null)
            {
                writer.WriteString("reason", reason);
            }

            writer.WriteEndObject();
        }

        return page.Ask(HttpMethod.Post, $"api/v1/captures/{act}", body.ToArray(), answer =>
        {
            Print(answer.GetProperty("capture"));
            return CommandLine.Well;
        });
    }

    private void Print(JsonElement capture)
    {
        var words = capture.GetProperty("keep").GetString() switch
        {
            "kept" => $"  kept: {capture.GetProperty("keep_words").GetString()}",
            "always" => "  never removed",
            _ => "",
        };
        surroundings.Output.WriteLine($"{capture.GetProperty("name").GetString()}  {capture.GetProperty("written_utc").GetString()}  {capture.GetProperty("size_bytes").GetInt64()} bytes{words}");
    }
}
