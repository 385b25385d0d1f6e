using System.Text.Json;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Sensors.Simulated;

namespace StrokeWatch.Commands;

/// <summary>Writes what a simulated run truly was as JSON, in the words of a replay's result where they overlap.</summary>
internal static class TruthJson
{
    private const int Digits = 9;

    /// <summary>Writes the truth, indented, with nine significant digits.</summary>
    public static void Write(SimulationTruth truth, Stream stream)
    {
        using var json = new Utf8JsonWriter(stream, new JsonWriterOptions { Indented = true, NewLine = "\n" });
        json.WriteStartObject();
        json.WriteString("scenario", truth.Scenario);
        json.WriteNumber("seed", truth.Seed);
        json.WriteStartObject("capture");
        json.WriteNumber("samples", truth.Samples);
        Number(json, "duration_s", truth.DurationSeconds);
        Number(json, "rate_hz", truth.RateHz);
        json.WriteNumber("clipped_samples", truth.ClippedSamples);
        json.WriteNumber("missing_samples", truth.Gaps.Sum(gap => gap.Missing));
        json.WriteStartArray("gaps");
        foreach (var (at, missing) in truth.Gaps)
        {
            json.WriteStartObject();
            Number(json, "at_s", at);
            json.WriteNumber("missing_samples", missing);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
        json.WriteStartObject("drive");
        Number(json, "frequency_hz", truth.DriveHz);
        Number(json, "sensor_clock_error_ppm", truth.SensorClockErrorPpm);
        json.WriteEndObject();
        Stroke(json, truth);
        Sensors(json, truth);
        Supply(json, truth.Supply);
        Strike(json, truth.Strikes);
        json.WriteStartArray("on");
        foreach (var (from, to) in truth.On)
        {
            json.WriteStartObject();
            Number(json, "from_s", from);
            Number(json, "to_s", to);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteStartArray("coast_downs");
        foreach (var (_, to) in truth.On.Where(on => on.To < truth.DurationSeconds))
        {
            json.WriteStartObject();
            Number(json, "start_s", to);
            Number(json, "natural_frequency_hz", truth.NaturalHz);
            Number(json, "damping_ratio", truth.DampingRatio);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteStartObject("machine");
        Number(json, "natural_frequency_hz", truth.NaturalHz);
        Number(json, "damping_ratio", truth.DampingRatio);
        json.WriteEndObject();
        Faults(json, truth);
        json.WriteEndObject();
        json.Flush();
        stream.WriteByte((byte)'\n');
    }

    private static void Faults(Utf8JsonWriter json, SimulationTruth truth)
    {
        if (truth.Faults.Count == 0)
        {
            return;
        }

        json.WriteStartArray("faults");
        foreach (var fault in truth.Faults)
        {
            json.WriteStartObject();
            json.WriteString("kind", fault.Kind);
            Number(json, "severity", fault.Severity);
            Number(json, "from_s", fault.FromSeconds);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void Stroke(Utf8JsonWriter json, SimulationTruth truth)
    {
        var stroke = truth.Stroke;
        json.WriteStartObject("stroke");
        Number(json, "pp_mm", stroke?.PeakToPeak.Millimetres);
        Number(json, "fundamental_pp_mm", stroke?.Fundamental.Millimetres);
        Number(json, "min_pp_mm", stroke?.Lowest.Millimetres);
        Number(json, "max_pp_mm", stroke?.Highest.Millimetres);
        Number(json, "line_angle_deg", stroke?.LineAngleDegrees);
        Number(json, "ellipse_ratio", stroke?.EllipseRatio);
        json.WriteNumber("windows", stroke?.Windows ?? 0);
        json.WriteString("verdict", truth.Verdict);
        json.WriteEndObject();
    }

    private static void Supply(Utf8JsonWriter json, TrueSupply? supply)
    {
        if (supply is null)
        {
            return;
        }

        json.WriteStartObject("supply");
        Number(json, "voltage_v", supply.RmsVolts);
        Number(json, "phase_deg", supply.PhaseDegrees);
        json.WriteEndObject();
    }

    private static void Sensors(Utf8JsonWriter json, SimulationTruth truth)
    {
        if (truth.Sensors.Count == 0)
        {
            return;
        }

        json.WriteStartArray("sensors");
        foreach (var sensor in truth.Sensors)
        {
            json.WriteStartObject();
            json.WriteString("place", SensorPlaces.Name(sensor.Place));
            Number(json, "pp_mm", sensor.PeakToPeak.Millimetres);
            Number(json, "phase_deg", sensor.PhaseDegrees);
            Number(json, "line_angle_deg", sensor.LineAngleDegrees);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteStartObject("relative");
        Number(json, "tray_to_body_pp_mm", truth.Relative?.Millimetres);
        json.WriteEndObject();
    }

    private static void Strike(Utf8JsonWriter json, TrueStrikes strikes)
    {
        json.WriteStartObject("strike");
        json.WriteBoolean("found", strikes.Contacts > 0);
        json.WriteNumber("contacts", strikes.Contacts);
        Number(json, "first_s", strikes.FirstSeconds);
        Number(json, "last_s", strikes.LastSeconds);
        Number(json, "peak_force_n", strikes.PeakNewtons);
        Number(json, "force_share", strikes.ForceShare);
        Number(json, "asked_force_share", strikes.AskedShare);
        Number(json, "every", strikes.Every);
        json.WriteEndObject();
    }

    private static void Number(Utf8JsonWriter json, string name, double? value)
    {
        if (value is not { } number)
        {
            json.WriteNull(name);
            return;
        }

        var scale = number == 0 ? 0 : Math.Clamp(Digits - 1 - (int)Math.Floor(Math.Log10(Math.Abs(number))), 0, 15);
        json.WriteNumber(name, Math.Round(number, scale));
    }
}
