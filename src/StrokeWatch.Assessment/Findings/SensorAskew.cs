using System.Globalization;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Assessment.Findings;

/// <summary>The sensor stands askew to the tray: the line of action leaves its x-z plane, or is not where the feeder file says.</summary>
internal sealed class SensorAskew : IRule
{
    private const double MostOutOfPlane = 5;
    private const double MostFromGiven = 3;

    public string Id => "sensor-askew";

    public Finding? Look(AssessmentReport report)
    {
        var because = new List<string>();
        var beyond = 0.0;
        if (report.Sensors is { } several)
        {
            foreach (var sensor in several.Sensors.Where(sensor => SensorPlaces.IsOnTray(sensor.Place)))
            {
                beyond = Math.Max(beyond, Look(report, sensor.Mounting, $"At the sensor {SensorPlaces.Name(sensor.Place)} t", because));
            }
        }
        else
        {
            beyond = Look(report, report.Mounting, "T", because);
        }

        return because.Count == 0 ? null : new(
            Id,
            Math.Clamp(0.6 + 0.03 * beyond, 0.6, 0.9),
            because,
            [
                "Compare the capture's columns with the axes marked on the sensor, and line_angle_deg with the feeder's drawing.",
                Rules.Isolate,
                "Stand the sensor square: x along the tray, z square to it; check its screw and its bracket.",
            ])
        {
            Plot = new()
            {
                Words = "How far the line of action stands off",
                Unit = "°",
                OverTime = false,
                Points = [.. Angles(report)],
                Limits = [new("out of the plane", MostOutOfPlane), new("from the feeder file", MostFromGiven)],
            },
        };
    }

    private static IEnumerable<EvidencePoint> Angles(AssessmentReport report)
    {
        var stands = report.Sensors is { } several
            ? several.Sensors.Where(sensor => SensorPlaces.IsOnTray(sensor.Place)).Select(sensor => (Name: SensorPlaces.Name(sensor.Place), sensor.Mounting))
            : [(Name: "sensor", report.Mounting)];
        foreach (var (name, mounting) in stands)
        {
            yield return new($"{name}: plane", 0, mounting?.AskewDegrees);
            if (report.Feeder.LineAngleDegrees is { } given)
            {
                yield return new($"{name}: file", 0, mounting?.LineDegrees is { } seen ? Apart(seen, given) : null);
            }
        }
    }

    /// <summary>Adds what one sensor shows, and gives by how many degrees it is beyond what may be.</summary>
    private static double Look(AssessmentReport report, MountingSummary? stands, string opening, List<string> because)
    {
        if (stands is not { LineUncertaintyDegrees: { } uncertainty } mounting)
        {
            return 0;
        }

        var beyond = 0.0;
        if (mounting.AskewDegrees is { } askew && askew - uncertainty > MostOutOfPlane)
        {
            because.Add(Text($"{opening}he line of action stands {askew:0.0}° ± {uncertainty:0.0}° (k = 2) out of the sensor's x-z plane; more than {MostOutOfPlane:0}° means that the sensor is turned or the tray moves sideways."));
            beyond = askew - uncertainty - MostOutOfPlane;
        }

        if (report.Feeder.LineAngleDegrees is { } given && mounting.LineDegrees is { } seen && Apart(seen, given) is var apart && apart - uncertainty > MostFromGiven)
        {
            because.Add(Text($"{opening}he motion shows a line of action {seen:0.0}° ± {uncertainty:0.0}° (k = 2) above the sensor's x axis; the feeder file gives {given:0.0}° as line_angle_deg."));
            beyond = Math.Max(beyond, apart - uncertainty - MostFromGiven);
        }

        return beyond;
    }

    /// <summary>Gives the angle between two lines, which have no sense: 89° and -89° are 2° apart.</summary>
    private static double Apart(double one, double other)
    {
        var apart = Math.Abs(one - other) % 180;
        return Math.Min(apart, 180 - apart);
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
