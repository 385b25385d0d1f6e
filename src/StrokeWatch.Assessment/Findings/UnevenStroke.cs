using System.Globalization;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Assessment.Findings;

/// <summary>The tray does not move alike at its ends or sides: it rocks.</summary>
internal sealed class UnevenStroke : IRule
{
    /// <summary>The share of the mean from which a difference is worth a look (common practice, no source).</summary>
    private const double Uneven = 0.10;

    public string Id => "uneven-stroke";

    public Finding? Look(AssessmentReport report)
    {
        if (report.Sensors is not { } sensors)
        {
            return null;
        }

        var worst = 0.0;
        var because = new List<string>();
        foreach (var (spread, words) in new[] { (sensors.FrontRear, ("front", "rear")), (sensors.LeftRight, ("left", "right")) })
        {
            if (spread is { Difference: { } difference, Relative: { } share, Uncertainty: { } uncertainty, First: { } first, Second: { } second }
                && Math.Abs(share) > Uneven && Math.Abs(difference) > uncertainty)
            {
                worst = Math.Max(worst, Math.Abs(share));
                because.Add(string.Create(
                    CultureInfo.InvariantCulture,
                    $"The stroke is {BandJudge.Words(first)} {words.Item1} and {BandJudge.Words(second)} {words.Item2}: they differ by {BandJudge.Words(Math.Abs(difference))} ± {Samples.Quantities.Length.FromMetres(uncertainty).RoundedUp()}, {100 * Math.Abs(share):0.0} % of their mean."));
            }
        }

        return because.Count == 0 ? null : new(
            Id,
            Math.Clamp(0.6 + worst, 0.6, 0.9),
            because,
            [
                Rules.Isolate,
                "Look for material built up at one end or side of the tray, and for a tray that rubs.",
                "Compare the leaf stacks: number and thickness of leaves, cracks, clamp bolts.",
                "Look whether the air gap is even across the core, and whether the tray's arms or welds are cracked.",
                "Change the two sensors over and measure again: a difference that goes with the sensor is the sensor's.",
            ])
        {
            Plot = EvidencePlots.BySensor(report, "Stroke", "mm", sensor => SensorPlaces.IsOnTray(sensor.Place) ? 1e3 * sensor.Stroke : null),
        };
    }
}
