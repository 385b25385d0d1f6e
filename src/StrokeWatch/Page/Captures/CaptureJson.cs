using System.Text.Json;
using StrokeWatch.Outputs.Captures;
using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Page.Captures;

/// <summary>Writes what is told of captures.</summary>
internal static class CaptureJson
{
    private const string NoFolder = "no folder of captures is configured: the table [captures] names one";

    /// <summary>Writes the list.</summary>
    public static void List(Utf8JsonWriter writer, CaptureList list)
    {
        var all = list.All();
        writer.WriteStartObject();
        writer.WriteString("reason", list.Kept ? null : NoFolder);
        writer.WriteBoolean("more", all.Count > CaptureList.Most);
        writer.WriteStartArray("captures");
        foreach (var one in all.Take(CaptureList.Most))
        {
            One(writer, one);
        }

        writer.WriteEndArray();
        writer.WriteEndObject();
    }

    /// <summary>Writes one of the list.</summary>
    public static void One(Utf8JsonWriter writer, ListedCapture one)
    {
        var (file, alarms) = (one.File, one.Alarms);
        writer.WriteStartObject();
        writer.WriteString("name", file.Name);
        writer.WriteNumber("size_bytes", file.Length);
        PageJson.Utc(writer, "written_utc", new(file.LastWriteTimeUtc));
        writer.WriteStartArray("alarms");
        foreach (var alarm in alarms)
        {
            writer.WriteStringValue(alarm.Id.ToString());
        }

        writer.WriteEndArray();
        PageJson.Utc(writer, "from_utc", alarms.Count > 0 ? alarms[0].From : null);
        PageJson.Number(writer, "length_s", alarms.Count > 0 ? alarms.Max(alarm => alarm.LengthSeconds) : null, 3);
        PageJson.Number(writer, "lost_samples", alarms.Count > 0 ? alarms.Max(alarm => alarm.LostSamples) : null, 0);
        writer.WriteString("keep", one.Keep switch { CaptureKeep.Kept => "kept", CaptureKeep.Always => "always", _ => "no" });
        writer.WriteString("keep_words", one.KeepWords);
        writer.WriteEndObject();
    }

    /// <summary>Writes a look at a whole capture.</summary>
    public static void Look(Utf8JsonWriter writer, string name, CaptureLook look)
    {
        var rate = look.Info.RateHz;
        writer.WriteStartObject();
        writer.WriteString("name", name);
        writer.WriteString("format", look.Info.Format);
        writer.WriteNumber("samples", look.Samples);
        PageJson.Number(writer, "rate_hz", rate, 4);
        PageJson.Number(writer, "length_s", look.Samples / rate, 6);
        PageJson.Number(writer, "column_s", look.PerColumn / rate, 9);
        writer.WriteNumber("samples_per_column", look.PerColumn);
        writer.WriteString("reason", rate is null ? "the capture does not say its rate: columns count samples" : null);
        PageJson.Utc(writer, "recorded_utc", look.Info.Recorded);
        writer.WriteStartArray("axes");
        for (var channel = 0; channel < look.Info.Axes.Count; channel++)
        {
            writer.WriteStartObject();
            writer.WriteString("axis", look.Info.Axes[channel].ToString().ToLowerInvariant());
            writer.WriteString("sensor", channel < look.Info.Places.Count ? SensorPlaces.Name(look.Info.Places[channel]) : null);
            Values(writer, "least_m_s2", look.Least[channel]);
            Values(writer, "most_m_s2", look.Largest[channel]);
            writer.WriteEndObject();
        }

        writer.WriteEndArray();
        writer.WriteEndObject();
    }

    private static void Values(Utf8JsonWriter writer, string name, IReadOnlyList<float> values)
    {
        writer.WriteStartArray(name);
        foreach (var value in values)
        {
            writer.WriteNumberValue(Math.Round((double)value, 3));
        }

        writer.WriteEndArray();
    }
}
