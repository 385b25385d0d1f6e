using System.Text.Json;
using StrokeWatch.Pipeline;

namespace StrokeWatch.Reports;

/// <summary>Writes the drive's frequency and the clocks it rests on.</summary>
internal static class DriveJson
{
    /// <summary>Writes it.</summary>
    public static void Write(Utf8JsonWriter json, ReplayResult result)
    {
        var report = result.Report;
        json.WriteStartObject("drive");
        ReplayJson.Number(json, "frequency_hz", report.FrequencyHz, 6);
        json.WriteString("clock_from", ClockSource.Name(result.Source, report));
        var error = ClockSource.Error(result.Source, report);
        ReplayJson.Number(json, "sensor_clock_error_ppm", error * 1e6, 2);
        json.WriteString(
            "reason",
            report.FrequencyHz is null ? report.Stroke.Reason
                : error is not null ? null
                : report.Feeder.Drive.Free ? "a free drive does not tell the sensor's clock, and no stated rate stands beside time stamps" : "the rate itself was taken from the mains");
        json.WriteEndObject();
    }
}
