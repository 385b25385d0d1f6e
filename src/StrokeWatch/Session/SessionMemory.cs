using System.Text;
using System.Text.Json;
using StrokeWatch.Machine.Feeder;

namespace StrokeWatch.Session;

/// <summary>Writes what a session must know into one line of JSON, and reads it back.</summary>
internal static class SessionMemory
{
    /// <summary>Writes all but the step and who works on it, which stand beside it in the book.</summary>
    public static string Write(SessionState state)
    {
        using var stream = new MemoryStream();
        using (var json = new Utf8JsonWriter(stream))
        {
            json.WriteStartObject();
            json.WriteString("rear", StackText.Write(state.Rear));
            json.WriteString("proposed", state.Proposed is { } proposed ? StackText.Write(proposed) : null);
            json.WriteNumber("tray_change_kg", state.TrayChangeKilograms);
            json.WriteStartArray("trail");
            foreach (var step in state.Trail)
            {
                json.WriteStringValue(step);
            }

            json.WriteEndArray();
            json.WriteBoolean("locked_out", state.LockedOut);
            json.WriteString("return_to", state.ReturnTo);
            json.WriteString("check", state.Check);
            json.WriteString("held", state.Held);
            if (state.BaselineVersion is { } version)
            {
                json.WriteNumber("baseline_version", version);
            }

            json.WriteEndObject();
        }

        return Encoding.UTF8.GetString(stream.ToArray());
    }

    /// <summary>Reads it; null where it is not what this program writes.</summary>
    public static SessionState? Read(string step, string? who, string memory)
    {
        try
        {
            using var document = JsonDocument.Parse(memory);
            var root = document.RootElement;
            string? Text(string name) => root.TryGetProperty(name, out var value) ? value.GetString() : null;
            IReadOnlyList<LeafLayer>? Stack(string name) => Text(name) is { } text ? StackText.Read(text, out _) : null;
            return Stack("rear") is not { } rear ? null : new()
            {
                Step = step,
                Who = who,
                Rear = rear,
                Proposed = Stack("proposed"),
                TrayChangeKilograms = root.GetProperty("tray_change_kg").GetDouble(),
                Trail = [.. root.GetProperty("trail").EnumerateArray().Select(name => name.GetString()!)],
                LockedOut = root.GetProperty("locked_out").GetBoolean(),
                ReturnTo = Text("return_to"),
                Check = Text("check"),
                Held = Text("held"),
                BaselineVersion = root.TryGetProperty("baseline_version", out var version) ? version.GetInt32() : null,
            };
        }
        catch (Exception trouble) when (trouble is JsonException or InvalidOperationException or KeyNotFoundException or FormatException)
        {
            return null;
        }
    }
}
