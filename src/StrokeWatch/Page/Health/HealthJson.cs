using System.Text.Json;
using StrokeWatch.Assessment;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Outputs.Captures;
using StrokeWatch.Outputs.Relay;

namespace StrokeWatch.Page.Health;

/// <summary>Writes how the station is.</summary>
internal static class HealthJson
{
    private const int MostFrequent = 5;

    /// <summary>Writes devices, outputs and store.</summary>
    public static void Station(Utf8JsonWriter writer, StationHealth health, BoardStatus status)
    {
        writer.WriteStartArray("sensors");
        foreach (var sensor in health.Sensors)
        {
            Sensor(writer, sensor);
        }

        writer.WriteEndArray();
        var reading = status.Reading?.Window.Reading;
        writer.WriteStartObject("time");
        PageJson.Number(writer, "clock_error_ppm", reading?.ClockError * 1e6, 1);
        writer.WriteBoolean("stamps_used", reading?.Timed ?? false);
        writer.WriteBoolean("stuck", reading?.Stuck ?? false);
        writer.WriteEndObject();
        writer.WriteStartArray("outputs");
        foreach (var (name, output) in health.Outputs)
        {
            writer.WriteStartObject();
            writer.WriteString("name", name);
            writer.WriteNumber("sent_rows", output.Sent);
            writer.WriteNumber("held_rows", output.Held);
            writer.WriteNumber("refused_rows", output.Refused);
            writer.WriteNumber("gone_rows", output.Gone);
            PageJson.Utc(writer, "last_success_utc", output.LastSuccess);
            writer.WriteString("trouble", output.Trouble);
            writer.WriteEndObject();
        }

        writer.WriteEndArray();
        Relay(writer, health.Relay);
        Shelf(writer, health.Shelf);
        var store = health.Store;
        writer.WriteStartObject("store");
        writer.WriteString("state", store.State.ToString().ToLowerInvariant());
        writer.WriteString("trouble", store.Trouble);
        Whole(writer, "size_bytes", health.StoreBytes);
        Whole(writer, "free_bytes", health.FreeBytes);
        PageJson.Utc(writer, "last_write_utc", store.LastCommit);
        writer.WriteNumber("waiting_rows", store.Waiting);
        writer.WriteNumber("windows", store.Windows);
        writer.WriteNumber("notes", store.Notes);
        writer.WriteNumber("dropped_windows", store.DroppedWindows);
        writer.WriteNumber("dropped_notes", store.DroppedNotes);
        writer.WriteEndObject();
    }

    /// <summary>Writes what alarms asked of people; nulls where that is not known.</summary>
    public static void Load(Utf8JsonWriter writer, AlarmLoad? load)
    {
        PageJson.Utc(writer, "from_utc", load?.From);
        PageJson.Utc(writer, "to_utc", load?.To);
        Whole(writer, "announced", load?.Announced);
        PageJson.Number(writer, "per_day", load?.PerDay, 2);
        Whole(writer, "fleeting", load?.Fleeting);
        Whole(writer, "floods", load?.Floods.Count);
        PageJson.Number(writer, "flood_share", load?.FloodShare, 6);
        List(writer, "chattering", load?.Chattering, one => (one.Id, "index_per_s", one.IndexPerSecond));
        List(writer, "stale", load?.Stale, one => (one.Id, "stood_s", one.Stood.TotalSeconds));
        List(writer, "most_frequent", load?.MostFrequent.Take(MostFrequent), one => (one.Id, "times", one.Times));
        writer.WriteStartObject("priorities");
        foreach (var priority in Enum.GetValues<AlarmPriority>())
        {
            Whole(writer, Names.Of(priority), load?.Priorities[priority]);
        }

        writer.WriteEndObject();
    }

    private static void Relay(Utf8JsonWriter writer, RelayHealth? relay)
    {
        writer.WritePropertyName("relay");
        if (relay is null)
        {
            writer.WriteNullValue();
            return;
        }

        writer.WriteStartObject();
        writer.WriteString("line", relay.Line);
        writer.WritePropertyName("energised");
        if (relay.Energised is { } energised)
        {
            writer.WriteBooleanValue(energised);
        }
        else
        {
            writer.WriteNullValue();
        }

        writer.WriteString("trouble", relay.Trouble);
        writer.WriteEndObject();
    }

    private static void Shelf(Utf8JsonWriter writer, CaptureHealth? shelf)
    {
        writer.WritePropertyName("captures");
        if (shelf is null)
        {
            writer.WriteNullValue();
            return;
        }

        writer.WriteStartObject();
        Whole(writer, "captures", shelf.Room?.Captures);
        Whole(writer, "size_bytes", shelf.Room?.Bytes);
        Whole(writer, "kept", shelf.Room?.Kept);
        Whole(writer, "kept_bytes", shelf.Room?.KeptBytes);
        writer.WriteNumber("quota_bytes", shelf.MostBytes);
        writer.WriteNumber("writing", shelf.Writing);
        writer.WriteString("trouble", shelf.Trouble);
        writer.WriteEndObject();
    }

    private static void Sensor(Utf8JsonWriter writer, SensorHealth sensor)
    {
        writer.WriteStartObject();
        writer.WriteStartArray("places");
        foreach (var place in sensor.Places)
        {
            writer.WriteStringValue(place);
        }

        writer.WriteEndArray();
        writer.WriteString("format", sensor.Format);
        PageJson.Number(writer, "rate_hz", sensor.RateHz, 4);
        PageJson.Number(writer, "measured_rate_hz", sensor.MeasuredRateHz, 4);
        PageJson.Number(writer, "age_s", sensor.AgeSeconds, 3);
        writer.WriteNumber("samples", sensor.Samples);
        writer.WriteNumber("missing_samples", sensor.Missing);
        writer.WriteNumber("gaps", sensor.Gaps);
        writer.WriteNumber("clipped_samples", sensor.Clipped);
        writer.WriteNumber("skipped_bytes", sensor.SkippedBytes);
        writer.WriteNumber("reopenings", sensor.Reopenings);
        writer.WriteStartArray("rejected");
        foreach (var (reason, count) in sensor.Rejected)
        {
            writer.WriteStartObject();
            writer.WriteString("reason", reason);
            writer.WriteNumber("count", count);
            writer.WriteEndObject();
        }

        writer.WriteEndArray();
        writer.WriteEndObject();
    }

    private static void List<T>(Utf8JsonWriter writer, string name, IEnumerable<T>? items, Func<T, (AlarmId Id, string Key, double Value)> of)
    {
        writer.WriteStartArray(name);
        foreach (var item in items ?? [])
        {
            var (id, key, value) = of(item);
            writer.WriteStartObject();
            writer.WriteString("alarm", id.ToString());
            PageJson.Number(writer, key, value, 4);
            writer.WriteEndObject();
        }

        writer.WriteEndArray();
    }

    private static void Whole(Utf8JsonWriter writer, string name, long? value)
    {
        if (value is { } number)
        {
            writer.WriteNumber(name, number);
        }
        else
        {
            writer.WriteNull(name);
        }
    }
}
