using System.Buffers;
using System.Text.Json;
using StrokeWatch.Assessment;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Outputs.Forwarding;

namespace StrokeWatch.Outputs.Mqtt;

/// <summary>The messages as JSON: snake_case keys that end in their unit, null with a reason for what was not measured.</summary>
internal static class MqttJson
{
    private const string Instant = "yyyy-MM-dd'T'HH:mm:ss.fff'Z'";
    private const double MillimetresPerInch = 25.4;

    /// <summary>Writes whether the program is there, and since when or why not.</summary>
    /// <param name="feeder">The feeder's name.</param>
    /// <param name="online">Whether it is there.</param>
    /// <param name="at">The instant; null in a will, which is written long before it is read.</param>
    /// <param name="held">Alarms that wait to be sent; null where that says nothing.</param>
    /// <param name="reason">Why it is not there; null where it is.</param>
    public static byte[] Status(string feeder, bool online, DateTimeOffset? at, long? held, string? reason) => Object(json =>
    {
        json.WriteString("status", online ? "online" : "offline");
        json.WriteString("feeder", feeder);
        json.WriteString("utc", at is { } instant ? Text(instant) : null);
        if (held is { } waiting)
        {
            json.WriteNumber("alarms_held", waiting);
        }

        json.WriteString("reason", reason);
    });

    /// <summary>Writes the stroke of the newest window, and the supply's voltage where there is a channel for it.</summary>
    /// <param name="feeder">The feeder's name.</param>
    /// <param name="at">The instant.</param>
    /// <param name="reading">What was measured.</param>
    /// <param name="verdict">Where the stroke lies.</param>
    /// <param name="supply">The supply in that window; null, or nothing captured, where no voltage is read.</param>
    public static byte[] Stroke(string feeder, DateTimeOffset at, in WindowReading reading, Verdict verdict, SupplyNow? supply = null)
    {
        var read = reading;
        return Object(json =>
        {
            json.WriteString("feeder", feeder);
            json.WriteString("utc", Text(at));
            Number(json, "pp_mm", read.StrokeMetres * 1e3);
            Number(json, "pp_in", read.StrokeMetres * 1e3 / MillimetresPerInch);
            Number(json, "uncertainty_mm", read.UncertaintyMetres * 1e3);
            Number(json, "frequency_hz", read.FrequencyHz);
            json.WriteString("verdict", Names.Of(verdict));
            json.WriteString("quality", Names.Of(read.Quality));
            json.WriteString("motion", Names.Of(read.Motion));
            json.WriteBoolean("strike", read.Strike);
            json.WriteString("reason", read.Reason);
            if (supply is { Captured: true })
            {
                Number(json, "supply_rms_v", supply.Reading.RmsVolts);
                Number(json, "supply_mains_v", supply.Reading.MainsVolts);
                Number(json, "supply_phase_deg", supply.Reading.PhaseDegrees);
                Number(json, "full_voltage_pp_mm", supply.FullStroke * 1e3);
                Number(json, "full_voltage_pp_in", supply.FullStroke * 1e3 / MillimetresPerInch);
                json.WriteString("supply_reason", supply.Reason);
            }
        });
    }

    /// <summary>Writes an alarm raised or cleared, from its row in the store; the same row always gives the same message, and its id is no other's.</summary>
    public static byte[] Alarm(WaitingRow row)
    {
        var values = row.Values.ToDictionary();
        return Object(json =>
        {
            json.WriteString("id", FormattableString.Invariant($"{row.UtcMs}-{row.Id}"));
            json.WriteString("feeder", values.GetValueOrDefault("feeder") as string);
            json.WriteString("utc", Text(DateTimeOffset.FromUnixTimeMilliseconds(row.UtcMs)));
            json.WriteString("kind", values.GetValueOrDefault("kind") as string);
            json.WriteBoolean("raised", values.GetValueOrDefault("raised") is not 0L);
            Number(json, "pp_mm", values.GetValueOrDefault("pp_mm") as double?);
            Number(json, "pp_in", (values.GetValueOrDefault("pp_mm") as double?) / MillimetresPerInch);
            json.WriteString("words", values.GetValueOrDefault("words") as string);
        });
    }

    private static string Text(DateTimeOffset at) => at.UtcDateTime.ToString(Instant, System.Globalization.CultureInfo.InvariantCulture);

    private static void Number(Utf8JsonWriter json, string key, double? value)
    {
        if (value is { } number && double.IsFinite(number))
        {
            json.WriteNumber(key, Math.Round(number, 6));
        }
        else
        {
            json.WriteNull(key);
        }
    }

    private static byte[] Object(Action<Utf8JsonWriter> write)
    {
        var buffer = new ArrayBufferWriter<byte>(512);
        using (var json = new Utf8JsonWriter(buffer))
        {
            json.WriteStartObject();
            write(json);
            json.WriteEndObject();
        }

        return buffer.WrittenSpan.ToArray();
    }
}
