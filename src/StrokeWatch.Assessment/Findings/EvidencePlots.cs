using StrokeWatch.Assessment.Reports;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Assessment.Findings;

/// <summary>Makes the plots of findings' evidence.</summary>
internal static class EvidencePlots
{
    /// <summary>More windows than this are thinned to the smallest and the largest of as many parts of the time.</summary>
    private const int MostParts = 240;

    /// <summary>Gives the stroke over time in mm against its band.</summary>
    public static EvidencePlot Strokes(AssessmentReport report)
    {
        var band = report.Feeder.Band;
        return new()
        {
            Words = "Stroke",
            Unit = "mm",
            OverTime = true,
            Points = Course(report, window => Runs(window) ? 1e3 * window.Reading.StrokeMetres : null),
            Limits = [new("bottom of the band", 1e3 * band.Low.Metres), new("top of the band", 1e3 * band.High.Metres), new("limit", 1e3 * band.Limit.Metres)],
        };
    }

    /// <summary>Gives a value of each window over time.</summary>
    public static EvidencePlot OverTime(AssessmentReport report, string words, string unit, Func<AssessedWindow, double?> value, params EvidenceLimit[] limits) =>
        new() { Words = words, Unit = unit, OverTime = true, Points = Course(report, value), Limits = limits };

    /// <summary>Gives a value of each sensor beside the others.</summary>
    public static EvidencePlot BySensor(AssessmentReport report, string words, string unit, Func<SensorSummary, double?> value, params EvidenceLimit[] limits) => new()
    {
        Words = words,
        Unit = unit,
        OverTime = false,
        Points = [.. report.Sensors!.Sensors.Select(sensor => new EvidencePoint(SensorPlaces.Name(sensor.Place), 0, value(sensor)))],
        Limits = limits,
    };

    private static bool Runs(in AssessedWindow window) => window.Verdict is not (Verdict.Stopped or Verdict.Unmeasurable);

    private static IReadOnlyList<EvidencePoint> Course(AssessmentReport report, Func<AssessedWindow, double?> value)
    {
        static double At(in AssessedWindow window) => window.Reading.StartSeconds + (0.5 * window.Reading.LengthSeconds);
        var windows = report.Windows;
        if (windows.Count <= MostParts)
        {
            return [.. windows.Select(window => new EvidencePoint("", At(window), value(window)))];
        }

        var (from, to) = (At(windows[0]), At(windows[^1]));
        var points = new List<EvidencePoint>();
        foreach (var part in windows.GroupBy(window => (int)(MostParts * (At(window) - from) / Math.Max(1e-3, to - from))))
        {
            var told = part.Where(window => value(window) is not null).ToList();
            if (told.Count == 0)
            {
                points.Add(new("", At(part.First()), null));
                continue;
            }

            var (least, most) = (told.MinBy(window => value(window)), told.MaxBy(window => value(window)));
            points.AddRange(new[] { least, most }.OrderBy(window => At(window)).Select(window => new EvidencePoint("", At(window), value(window))));
        }

        return points;
    }
}
