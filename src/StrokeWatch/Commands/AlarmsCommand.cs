using System.Text.Json;

namespace StrokeWatch.Commands;

/// <summary>The command <c>alarms</c>: what a running daemon's page shows and does, from a command line.</summary>
internal sealed class AlarmsCommand(Surroundings surroundings)
{
    /// <summary>Gets where the page is.</summary>
    public required string Url { get; init; }

    /// <summary>Gets the file that holds the token; null where nothing but looking is done.</summary>
    public string? TokenFile { get; init; }

    /// <summary>Gets the certificate that the page's is trusted by; null for the system's own.</summary>
    public string? CaFile { get; init; }

    /// <summary>Prints the alarms; 1 where any stands or waits for somebody.</summary>
    public int Show(bool json) => Ask(HttpMethod.Get, "api/v1/status", null, status =>
    {
        List<JsonElement> alarms = [.. status.GetProperty("alarms").EnumerateArray().Where(alarm => alarm.GetProperty("state").GetString() != "normal")];
        if (json)
        {
            surroundings.Output.WriteLine($"[{string.Join(",", alarms.Select(alarm => alarm.GetRawText()))}]");
        }
        else if (alarms.Count == 0)
        {
            surroundings.Output.WriteLine("No alarm stands.");
        }

        foreach (var alarm in json ? [] : alarms)
        {
            Print(alarm);
        }

        return alarms.Exists(alarm => alarm.GetProperty("state").GetString() is not ("shelved" or "suppressed-by-design" or "out-of-service")) ? CommandLine.NotWell : CommandLine.Well;
    });

    /// <summary>Does something to an alarm.</summary>
    public int Do(string alarm, string act, int? minutes, string? reason)
    {
        using var body = new MemoryStream();
        using (var writer = new Utf8JsonWriter(body))
        {
            writer.WriteStartObject();
            if (minutes is { } known)
            {
                writer.WriteNumber("minutes", known);
            }

            if (reason is not null)
            {
                writer.WriteString("reason", reason);
            }

            writer.WriteEndObject();
        }

        return Ask(HttpMethod.Post, $"api/v1/alarms/{Uri.EscapeDataString(alarm)}/{act}", body.ToArray(), answer =>
        {
            Print(answer.GetProperty("alarm"));
            return CommandLine.Well;
        });
    }

    private void Print(JsonElement alarm)
    {
        string Text(string key) => alarm.GetProperty(key).GetString() ?? "";
        var until = Text("until_utc") is { Length: > 0 } end ? $" until {end}" : "";
        surroundings.Output.WriteLine($"{Text("id")}  {Text("state")}{until}  since {Text("since_utc")} by {Text("by")}: {Text("words")}");
        foreach (var step in alarm.GetProperty("steps").EnumerateArray())
        {
            surroundings.Output.WriteLine($"    {step.GetProperty("utc").GetString()}  {step.GetProperty("act").GetString()}  by {step.GetProperty("by").GetString()}");
        }
    }

    private int Ask(HttpMethod method, string path, byte[]? body, Func<JsonElement, int> take) =>
        new PageClient("alarms", surroundings) { Url = Url, TokenFile = TokenFile, CaFile = CaFile }.Ask(method, path, body, take);
}
