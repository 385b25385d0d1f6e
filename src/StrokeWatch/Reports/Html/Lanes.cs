using StrokeWatch.Assessment.Reports;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Measurement.Windows;

namespace StrokeWatch.Reports.Html;

/// <summary>The lanes below the stroke's plot: windows that did not count, one lane and one sign a quality; strike; alarms.</summary>
internal static class Lanes
{
    /// <summary>Height of a lane in units of the drawing.</summary>
    public const double Height = 30;

    private const double LeastBar = 2.5;
    private const double SignRoom = 20;

    /// <summary>Gives the lanes that have anything in them.</summary>
    public static IReadOnlyList<Lane> Of(AssessmentReport report)
    {
        var end = report.Windows[^1].Reading.StartSeconds + report.Windows[^1].Reading.LengthSeconds;
        Lane[] windows =
        [
            new(ReportWords.LaneStopped, "M-4 -4H4V4H-4Z", "bar still", Spans(report, window => window.Verdict == Verdict.Stopped)),
            .. Quality(WindowQuality.Transient, "M-5 4L5 -4"),
            .. Quality(WindowQuality.Clipped, "M-6 4V-4H6V4"),
            .. Quality(WindowQuality.Gap, "M-3 -5V5M3 -5V5"),
            .. Quality(WindowQuality.Noisy, "M-7 0L-4.5 -4L-1.5 4L1.5 -4L4.5 4L7 0"),
            new(ReportWords.LaneStrike, "M0 -5V5M-4.5 -2.5L4.5 2.5M-4.5 2.5L4.5 -2.5", "bar loud", Spans(report, window => window.Reading.Strike)),
        ];
        var alarms = ReplayJson.Pairs(report.Transitions).GroupBy(pair => pair.Raised.Kind).OrderBy(group => group.Key)
            .Select(group => new Lane(
                ReportWords.LaneAlarm(group.Key),
                "M0 -6L6 5H-6Z",
                "bar alarm",
                [.. group.Select(pair => (pair.Raised.AtSeconds, Math.Max(pair.Raised.AtSeconds, pair.Cleared?.AtSeconds ?? end)))]));
        return [.. windows.Concat(alarms).Where(lane => lane.Spans.Count > 0)];

        Lane[] Quality(WindowQuality quality, string sign) =>
            [new(ReportWords.LaneQuality(quality), sign, "bar", Spans(report, window => window.Reading.Quality == quality))];
    }

    /// <summary>Draws a lane: its name above, bars below, with the sign in them or beside them where there is room.</summary>
    public static void Draw(Drawing drawing, Lane lane, AxisScale time, double unitSeconds, double top)
    {
        drawing.Line(time.Start, top + Height, time.End, top + Height, "grid");
        drawing.PathAt(time.Start + 12, top + 8, lane.Sign, "sign");
        drawing.Text(time.Start + 24, top + 12, lane.Name, "start", "label halo");
        var y = top + 22;
        var bars = Bars(lane, time, unitSeconds);
        for (var i = 0; i < bars.Count; i++)
        {
            var (left, right) = bars[i];
            drawing.Box(left, y - 3, right, y + 3, lane.Look);
            if (right - left > 2 * SignRoom)
            {
                var middle = 0.5 * (left + right);
                drawing.Box(middle - 0.5 * SignRoom, y - 7, middle + 0.5 * SignRoom, y + 7, "gap");
                drawing.PathAt(middle, y, lane.Sign, "sign");
            }
            else if ((i + 1 < bars.Count ? bars[i + 1].Left : time.End) - right > SignRoom)
            {
                drawing.PathAt(right + 0.5 * SignRoom, y, lane.Sign, "sign");
            }
            else if (left - (i > 0 ? bars[i - 1].Right + SignRoom : time.Start) > SignRoom)
            {
                drawing.PathAt(left - 0.5 * SignRoom, y, lane.Sign, "sign");
            }
        }
    }

    /// <summary>Turns spans into bars wide enough to be seen; bars that would touch become one.</summary>
    private static List<(double Left, double Right)> Bars(Lane lane, AxisScale time, double unitSeconds)
    {
        var bars = new List<(double Left, double Right)>();
        foreach (var (from, to) in lane.Spans)
        {
            var left = Math.Clamp(time.At(from / unitSeconds), time.Start, time.End - LeastBar);
            var right = Math.Min(time.End, Math.Max(time.At(to / unitSeconds), left + LeastBar));
            if (bars.Count > 0 && left - bars[^1].Right < 1)
            {
                bars[^1] = (bars[^1].Left, Math.Max(bars[^1].Right, right));
            }
            else
            {
                bars.Add((left, right));
            }
        }

        return bars;
    }

    private static List<(double From, double To)> Spans(AssessmentReport report, Func<AssessedWindow, bool> holds)
    {
        var spans = new List<(double From, double To)>();
        var before = false;
        foreach (var window in report.Windows)
        {
            var now = holds(window);
            var (from, to) = (window.Reading.StartSeconds, window.Reading.StartSeconds + window.Reading.LengthSeconds);
            if (now && before)
            {
                spans[^1] = (spans[^1].From, to);
            }
            else if (now)
            {
                spans.Add((from, to));
            }

            before = now;
        }

        return spans;
    }
}
