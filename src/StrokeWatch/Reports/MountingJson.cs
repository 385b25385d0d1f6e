using System.Text.Json;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Measurement.Orientation;

namespace StrokeWatch.Reports;

/// <summary>Writes how the sensor stands and the tray moves in space: the object <c>mounting</c>.</summary>
internal static class MountingJson
{
    /// <summary>Writes the object; null where it was not tallied.</summary>
    public static void Write(Utf8JsonWriter json, MountingSummary? summary)
    {
        if (summary is not { } mounting)
        {
            json.WriteNull("mounting");
            return;
        }

        json.WriteStartObject("mounting");
        ReplayJson.Number(json, "gravity_m_s2", mounting.Gravity?.Norm, 5);
        Vector(json, "gravity_xyz_m_s2", mounting.Gravity, 5);
        ReplayJson.Number(json, "tilt_deg", mounting.TiltDegrees, 4);
        ReplayJson.Number(json, "tilt_uncertainty_deg", mounting.TiltUncertaintyDegrees, 4);
        Vector(json, "line_xyz", mounting.Line, 6);
        ReplayJson.Number(json, "measured_line_angle_deg", mounting.LineDegrees, 4);
        ReplayJson.Number(json, "out_of_plane_deg", mounting.AskewDegrees, 4);
        ReplayJson.Number(json, "line_uncertainty_deg", mounting.LineUncertaintyDegrees, 4);
        ReplayJson.Number(json, "drive_angle_deg", mounting.DriveDegrees, 4);
        ReplayJson.Number(json, "drive_angle_uncertainty_deg", mounting.DriveUncertaintyDegrees, 4);
        ReplayJson.Number(json, "ellipse_major_pp_mm", mounting.MajorMetres * 1e3, 6);
        ReplayJson.Number(json, "ellipse_minor_pp_mm", mounting.MinorMetres * 1e3, 6);
        Vector(json, "ellipse_normal_xyz", mounting.Normal, 4);
        json.WriteString("reason", mounting.Reason);
        json.WriteEndObject();
    }

    private static void Vector(Utf8JsonWriter json, string name, Triple? vector, int digits)
    {
        if (vector is not { } value)
        {
            json.WriteNull(name);
            return;
        }

        json.WriteStartArray(name);
        foreach (var number in (double[])[value.X, value.Y, value.Z])
        {
            json.WriteNumberValue((decimal)Math.Round(number, digits));
        }

        json.WriteEndArray();
    }
}
