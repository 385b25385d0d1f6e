using StrokeWatch.Assessment.Reports;
using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Assessment.Findings;

/// <summary>One of several sensors gives no stroke though another does, and not because it is at its rail.</summary>
internal sealed class SensorSilent : IRule
{
    public string Id => "sensor-silent";

    public Finding? Look(AssessmentReport report)
    {
        if (report.Stroke.Stroke is null || report.Sensors is not { } several)
        {
            return null;
        }

        List<string> because = [.. several.Sensors.Where(sensor => sensor is { Stroke: null, WindowsClipped: 0 })
            .Select(sensor => $"The sensor {SensorPlaces.Name(sensor.Place)} gives no stroke: {sensor.Reason}.")];
        return because.Count == 0 ? null : new(
            Id,
            0.9,
            because,
            [
                Rules.Isolate,
                "Check that sensor's cable, plug, supply and screw.",
                "Check that the columns or channels given for it in the feeder file are its own.",
            ])
        {
            Plot = EvidencePlots.BySensor(report, "Stroke", "mm", sensor => 1e3 * sensor.Stroke),
        };
    }
}
