using System.Buffers;
using System.Globalization;
using System.Text.Json;
using StrokeWatch.Assessment;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Outputs.Forwarding;

/// <summary>A step of an alarm's life as JSON, from its row in the journal: the same row always gives the same text, and its id is no other's.</summary>
internal static class StepJson
{
    private const string Instant = "yyyy-MM-dd'T'HH:mm:ss.fff'Z'";

    /// <summary>Gives the row's id: its instant and its number, so that a store begun anew repeats none.</summary>
    public static string Id(WaitingRow row) => FormattableString.Invariant($"{row.UtcMs}-{row.Id}");

    /// <summary>Writes the step as one object.</summary>
    public static byte[] Write(WaitingRow row)
    {
        var values = row.Values.ToDictionary();
        string? Word(string key) => values.GetValueOrDefault(key) as string;
        var known = AlarmId.TryParse(Word("alarm") ?? "", out var id);
        var buffer = new ArrayBufferWriter<byte>(512);
        using (var json = new Utf8JsonWriter(buffer))
        {
            json.WriteStartObject();
            json.WriteString("id", Id(row));
            json.WriteString("feeder", Word("feeder"));
            json.WriteString("utc", Text(row.UtcMs));
            json.WriteString("alarm", Word("alarm"));
            json.WriteString("kind", known ? Names.Of(id.Kind) : null);
            json.WriteString("place", known && id.Place is { } place ? SensorPlaces.Name(place) : null);
            json.WriteString("priority", known ? Names.Of(AlarmTable.Of(new())[id.Kind].Priority) : null);
            json.WriteString("act", Word("act"));
            json.WriteString("from", Word("state_from"));
            json.WriteString("to", Word("state_to"));
            json.WriteString("beneath", Word("beneath"));
            json.WriteString("by", Word("by"));
            json.WriteString("words", Word("words"));
            json.WriteString("until_utc", values.GetValueOrDefault("until_utc_ms") is long until ? Text(until) : null);
            json.WriteEndObject();
        }

        return buffer.WrittenSpan.ToArray();
    }

    private static string Text(long utcMs) => DateTimeOffset.FromUnixTimeMilliseconds(utcMs).UtcDateTime.ToString(Instant, CultureInfo.InvariantCulture);
}
