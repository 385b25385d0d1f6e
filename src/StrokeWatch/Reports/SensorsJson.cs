using System.Text.Json;
using StrokeWatch.Assessment;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Reports;

/// <summary>Writes what several sensors showed as JSON; nothing where the feeder has one sensor.</summary>
internal static class SensorsJson
{
    /// <summary>Writes the keys <c>sensors</c>, <c>spread</c> and <c>relative</c>.</summary>
    public static void Write(Utf8JsonWriter json, AssessmentReport report)
    {
        if (report.Sensors is not { } several)
        {
            return;
        }

        json.WriteStartArray("sensors");
        for (var i = 0; i < several.Sensors.Count; i++)
        {
            Sensor(json, several.Sensors[i], report.Feeder.Sensors[i].Sensor.Calibration);
        }

        json.WriteEndArray();
        json.WriteStartObject("spread");
        Spread(json, "front_rear", several.FrontRear);
        Spread(json, "left_right", several.LeftRight);
        json.WriteString("reason", Reasons(several));
        json.WriteEndObject();
        json.WriteStartObject("relative");
        ReplayJson.Number(json, "tray_to_body_pp_mm", several.Relative.Stroke * 1e3, 6);
        ReplayJson.Number(json, "uncertainty_mm", several.Relative.Uncertainty * 1e3, 6);
        json.WriteString("reason", several.Relative.Reason);
        json.WriteEndObject();
    }

    private static void Sensor(Utf8JsonWriter json, SensorSummary sensor, Samples.Calibration.SensorCalibration? calibration)
    {
        json.WriteStartObject();
        json.WriteString("place", SensorPlaces.Name(sensor.Place));
        json.WriteBoolean("phase_reference", sensor.Leads);
        ReplayJson.Number(json, "pp_mm", sensor.Stroke * 1e3, 6);
        ReplayJson.Number(json, "uncertainty_mm", sensor.Uncertainty * 1e3, 6);
        ReplayJson.Number(json, "phase_deg", sensor.PhaseDegrees, 4);
        ReplayJson.Number(json, "phase_uncertainty_deg", sensor.PhaseUncertaintyDegrees, 4);
        ReplayJson.Number(json, "line_angle_deg", sensor.LineAngleDegrees, 4);
        ReplayJson.Number(json, "ellipse_ratio", sensor.EllipseRatio, 6);
        json.WriteNumber("windows_good", sensor.WindowsGood);
        json.WriteString("quality", Names.Of(sensor.Quality));
        json.WriteString(
            "reason",
            sensor.Reason ?? sensor.PhaseReason ?? (sensor.LineAngleDegrees is null ? "one axis alone tells no line of action" : null));
        ReplayJson.Calibration(json, calibration);
        MountingJson.Write(json, sensor.Mounting);
        json.WriteEndObject();
    }

    private static void Spread(Utf8JsonWriter json, string name, SpreadSummary spread)
    {
        ReplayJson.Number(json, $"{name}_mm", spread.Difference * 1e3, 6);
        ReplayJson.Number(json, $"{name}_percent", 100 * spread.Relative, 4);
        ReplayJson.Number(json, $"{name}_uncertainty_mm", spread.Uncertainty * 1e3, 6);
        ReplayJson.Number(json, $"{name}_uncertainty_percent", 100 * spread.RelativeUncertainty, 4);
    }

    private static string? Reasons(SeveralSummary several)
    {
        string[] reasons = [.. new[] { ("front to rear", several.FrontRear.Reason), ("left to right", several.LeftRight.Reason) }
            .Where(pair => pair.Item2 is not null).Select(pair => $"{pair.Item1}: {pair.Item2}")];
        return reasons.Length == 0 ? null : string.Join("; ", reasons);
    }
}
