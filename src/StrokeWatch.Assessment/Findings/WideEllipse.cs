using System.Globalization;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Assessment.Findings;

/// <summary>The tray moves on an ellipse instead of a line: it rocks, a clamp is loose, or the sensor stands askew.</summary>
internal sealed class WideEllipse : IRule
{
    private const double Wide = 0.15;

    public string Id => "wide-ellipse";

    public Finding? Look(AssessmentReport report)
    {
        List<(string Where, double Ratio)> wide = [.. Ratios(report).Where(one => one.Ratio >= Wide)];
        return wide.Count == 0 ? null : new(
            Id,
            Math.Clamp(0.5 + wide.Max(one => one.Ratio), 0.5, 0.9),
            [.. wide.Select(one => string.Create(CultureInfo.InvariantCulture, $"{one.Where}cross its line of action the tray still moves {100 * one.Ratio:0} % of the stroke (ellipse ratio {one.Ratio:0.00})."))],
            [
                Rules.Isolate,
                "Check the sensor's screw first: a loose sensor draws ellipses of its own.",
                "Then look for a loose clamp or a cracked leaf, and for a tray that rocks: compare the stroke front and rear, left and right.",
            ])
        {
            Plot = report.Sensors is null
                ? EvidencePlots.OverTime(report, "Movement across the line of action", "% of the stroke", window => 100 * window.Reading.EllipseRatio, new EvidenceLimit("wide", 100 * Wide))
                : EvidencePlots.BySensor(
                    report, "Movement across the line of action", "% of the stroke", sensor => SensorPlaces.IsOnTray(sensor.Place) ? 100 * sensor.EllipseRatio : null, new EvidenceLimit("wide", 100 * Wide)),
        };
    }

    private static IEnumerable<(string Where, double Ratio)> Ratios(AssessmentReport report) => report.Sensors is { } several
        ? several.Sensors.Where(sensor => sensor.EllipseRatio is not null && SensorPlaces.IsOnTray(sensor.Place))
            .Select(sensor => ($"At the sensor {SensorPlaces.Name(sensor.Place)}, a", sensor.EllipseRatio!.Value))
        : report.Stroke.EllipseRatio is { } ratio ? [("A", ratio)] : [];
}
