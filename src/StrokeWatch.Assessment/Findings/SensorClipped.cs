using System.Globalization;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Assessment.Findings;

/// <summary>The sensor's range is too small for what it meets.</summary>
internal sealed class SensorClipped : IRule
{
    public string Id => "sensor-clipped";

    public Finding? Look(AssessmentReport report) => Because(report) is { Count: > 0 } because ? AtRail(report, because)
        : report.Windows.Count(window => window.Reading.MayBeClipped) is > 0 and var open ? MayBe(report, open)
        : null;

    private Finding AtRail(AssessmentReport report, List<string> because) => new(
        Id,
        0.95,
        because,
        [
            "Compare the sensor's range with the stroke: full scale should be at least twice the largest acceleration. If it is, listen for hammering, hands off.",
            Rules.Isolate,
            "Put a sensor of larger range in its place.",
        ])
    {
        Plot = report.Sensors is null
            ? EvidencePlots.OverTime(report, "Samples at the end of the sensor's range, a window", "", window => window.Reading.ClippedSamples)
            : EvidencePlots.BySensor(report, "Windows with samples at the end of the range", "", sensor => sensor.WindowsClipped),
    };

    private Finding MayBe(AssessmentReport report, int open) => new(
        Id,
        0.5,
        [string.Create(CultureInfo.InvariantCulture, $"In {Counted.Of(open, "window")} each cycle is flat at its top or bottom, as the end of the sensor's range would cut it, and that range is not stated; no stroke is given for those.")],
        ["Write the sensor's range, full_scale_g, into the feeder file and look again. If the flat tops lie well below it, the machine shakes so: listen for hammering or rubbing, hands off."])
    {
        Plot = EvidencePlots.OverTime(report, "Windows whose cycles are flat (1) or not (0)", "", window => window.Reading.MayBeClipped ? 1 : 0),
    };

    private static List<string> Because(AssessmentReport report) =>
        report.Sensors is { } several
            ? [.. several.Sensors.Where(sensor => sensor.WindowsClipped > 0).Select(sensor => string.Create(
                CultureInfo.InvariantCulture, $"The sensor {SensorPlaces.Name(sensor.Place)} stands at the end of its range (at its rail) in {Counted.Of(sensor.WindowsClipped, "window")}; it gives no stroke for those."))]
        : report.Count(WindowQuality.Clipped) == 0 ? []
        : [string.Create(CultureInfo.InvariantCulture, $"{Counted.Of(report.ClippedSamples, "sample")} in {Counted.Of(report.Count(WindowQuality.Clipped), "window")} {(report.ClippedSamples == 1 ? "stands" : "stand")} at the end of the sensor's range (at its rail); no stroke is given for those.")];
}
