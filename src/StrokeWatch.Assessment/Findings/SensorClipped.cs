using System.Globalization;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Assessment.Findings;

/// <summary>The sensor's range is too small for what it meets.</summary>
internal sealed class SensorClipped : IRule
{
    public string Id => "sensor-clipped";

    public Finding? Look(AssessmentReport report)
    {
        if (Because(report) is { Count: > 0 } because)
        {
            return new(Id, 0.95, because, ["Use a sensor whose full scale is at least twice the expected peak; if the range is right, look for hammering."]);
        }

        var open = report.Windows.Count(window => window.Reading.MayBeClipped);
        return open == 0 ? null : new(
            Id,
            0.5,
            [string.Create(CultureInfo.InvariantCulture, $"In {open} windows each cycle is flat at its top or bottom, as a sensor's rail would cut it, and the sensor's range is not stated; no stroke is given for those.")],
            ["Write the sensor's range, full_scale_g, into the feeder file and look again: if the flat tops lie well below it, the machine shakes so; look for hammering or rubbing."]);
    }

    private static List<string> Because(AssessmentReport report) =>
        report.Sensors is { } several
            ? [.. several.Sensors.Where(sensor => sensor.WindowsClipped > 0).Select(sensor => string.Create(
                CultureInfo.InvariantCulture, $"The sensor {SensorPlaces.Name(sensor.Place)} stands at its rail in {sensor.WindowsClipped} windows; it gives no stroke for those."))]
        : report.Count(WindowQuality.Clipped) == 0 ? []
        : [string.Create(CultureInfo.InvariantCulture, $"{report.ClippedSamples} samples in {report.Count(WindowQuality.Clipped)} windows stand at the sensor's rail; no stroke is given for those.")];
}
