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
        var known = report.ClockError is not null && result.Source.RateHz is not null;
        ReplayJson.Number(json, "sensor_clock_error_ppm", known ? report.ClockError * 1e6 : null, 2);
        json.WriteString(
            "reason",
            report.FrequencyHz is null ? report.Stroke.Reason
                : known ? null
                : report.Feeder.Drive.Free ? "a free drive does not tell the sensor's clock" : "the rate itself was taken from the mains");
        json.WriteEndObject();
    }
}
