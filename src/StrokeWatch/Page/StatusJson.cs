using System.Text.Json;
using StrokeWatch.Assessment;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Pipeline.Alarms;
using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Page;

/// <summary>Writes how it stands: <c>/api/v1/status</c> and the events of <c>/api/v1/live</c>.</summary>
internal static class StatusJson
{
    private const string NothingYet = "nothing has been measured since the program started";

    /// <summary>Why the page only shows: nobody can sign in to it.</summary>
    private const string OnlyReads = "this page only shows: nobody can sign in to it";

    /// <summary>Writes the whole.</summary>
    public static void Write(Utf8JsonWriter writer, BoardStatus status)
    {
        writer.WriteStartObject();
        writer.WriteStartObject("feeder");
        writer.WriteString("name", status.Feeder.Name);
        writer.WriteString("model", status.Feeder.Model);
        writer.WriteEndObject();
        Times(writer, status);
        PageJson.Utc(writer, "measured_utc", status.Reading?.Utc);
        writer.WriteNumber("windows", status.Reading?.Number ?? 0);
        writer.WriteString("motion", Names.Of(status.Reading?.Window.Reading.Motion ?? MotionState.Unknown));
        Stroke(writer, status.Reading);
        writer.WriteStartObject("band");
        PageJson.Length(writer, "low", status.Feeder.Band.Low.Metres);
        PageJson.Length(writer, "high", status.Feeder.Band.High.Metres);
        PageJson.Length(writer, "limit", status.Feeder.Band.Limit.Metres);
        writer.WriteEndObject();
        Strike(writer, status.Reading);
        SupplyStatus.Write(writer, status);
        writer.WriteStartArray("alarms");
        foreach (var alarm in status.Alarms)
        {
            Alarm(writer, alarm);
        }

        writer.WriteEndArray();
        writer.WriteStartObject("store");
        writer.WriteString("state", status.Store.State.ToString().ToLowerInvariant());
        writer.WriteString("trouble", status.Store.Trouble);
        writer.WriteNumber("waiting_rows", status.Store.Waiting);
        writer.WriteEndObject();
        writer.WriteStartObject("acknowledge");
        writer.WriteBoolean("possible", status.CanSignIn);
        writer.WriteString("reason", status.CanSignIn ? null : OnlyReads);
        writer.WriteEndObject();
        writer.WriteEndObject();
    }

    /// <summary>Writes a sign of life.</summary>
    public static void Beat(Utf8JsonWriter writer, BoardStatus status)
    {
        writer.WriteStartObject();
        Times(writer, status);
        writer.WriteNumber("windows", status.Reading?.Number ?? 0);
        writer.WriteEndObject();
    }

    private static void Times(Utf8JsonWriter writer, BoardStatus status)
    {
        PageJson.Utc(writer, "utc", status.Utc);
        PageJson.Number(writer, "age_s", status.AgeSeconds, 3);
        writer.WriteBoolean("stale", status.Stale);
    }

    private static void Stroke(Utf8JsonWriter writer, BoardReading? last)
    {
        var reading = last?.Window.Reading;
        var counted = reading is { Quality: WindowQuality.Good, StrokeMetres: not null } ? reading : null;
        writer.WriteStartObject("stroke");
        PageJson.Length(writer, "pp", counted?.StrokeMetres);
        PageJson.Length(writer, "uncertainty", counted?.UncertaintyMetres);
        PageJson.Length(writer, "at_least", reading?.AtLeastMetres);
        PageJson.Length(writer, "largest", counted?.LargestMetres);
        writer.WriteString("largest_place", counted?.LargestPlace is { } place ? SensorPlaces.Name(place) : null);
        writer.WriteString("verdict", Names.Of(last?.Window.Verdict ?? Verdict.Unmeasurable));
        writer.WriteString("quality", reading is { } known ? Names.Of(known.Quality) : null);
        writer.WriteString("reason", counted is not null ? null : reading is null ? NothingYet : reading.Value.Reason ?? "the window does not count");
        PageJson.Number(writer, "frequency_hz", reading?.FrequencyHz, 4);
        writer.WriteEndObject();
    }

    private static void Strike(Utf8JsonWriter writer, BoardReading? last)
    {
        var reading = last?.Window.Reading;
        writer.WriteStartObject("strike");
        writer.WriteBoolean("found", reading?.Strike ?? false);
        writer.WriteBoolean("possible", reading?.StrikePossible ?? false);
        PageJson.Number(writer, "score", reading?.StrikeScore, 3);
        writer.WriteString("reason", reading is { Strike: true } or { StrikeScore: not null } ? null : reading is null ? NothingYet : reading.Value.Reason ?? "strike could not be judged in this window");
        writer.WriteEndObject();
    }

    /// <summary>Writes an alarm.</summary>
    public static void Alarm(Utf8JsonWriter writer, AlarmView alarm)
    {
        writer.WriteStartObject();
        writer.WriteString("id", alarm.Id.ToString());
        writer.WriteString("kind", Names.Of(alarm.Id.Kind));
        writer.WriteString("place", alarm.Id.Place is { } place ? SensorPlaces.Name(place) : null);
        writer.WriteString("priority", Names.Of(alarm.Priority));
        writer.WriteString("state", Names.Of(alarm.State));
        writer.WriteString("beneath", Names.Of(alarm.Beneath));
        writer.WriteBoolean("stands", alarm.Stands);
        PageJson.Utc(writer, "since_utc", alarm.Since);
        writer.WriteString("by", alarm.By);
        PageJson.Utc(writer, "until_utc", alarm.Until);
        writer.WriteString("words", alarm.Words);
        writer.WriteStartArray("steps");
        foreach (var step in alarm.Steps)
        {
            writer.WriteStartObject();
            PageJson.Utc(writer, "utc", step.At);
            writer.WriteString("act", Names.Of(step.Act));
            writer.WriteString("by", step.By);
            writer.WriteEndObject();
        }

        writer.WriteEndArray();
        writer.WriteEndObject();
    }
}
