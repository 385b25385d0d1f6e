using StrokeWatch.Pipeline;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Reports.Html;

/// <summary>The stroke over time against its band, with its uncertainty as a ribbon, and lanes below for what did not count, strike and alarms.</summary>
internal static class StrokePlot
{
    private const double Top = 30;
    private const double Tall = 230;
    private const double Side = 52;
    private const int MostDots = 150;

    /// <summary>Draws the plot.</summary>
    public static void Draw(Markup page, ReplayResult result, double width, string variant) => Draw(new SvgSurface(page), result, width, variant);

    /// <summary>Draws the plot on a surface.</summary>
    public static void Draw(IDrawingSurface surface, ReplayResult result, double width, string variant = "")
    {
        var report = result.Report;
        var from = report.Windows[0].Reading.StartSeconds;
        var last = report.Windows[^1].Reading;
        var to = Math.Max(last.StartSeconds + last.LengthSeconds, from + 1e-3);
        var trace = StrokeTrace.Of(report.Windows, from, to);
        var lanes = Lanes.Of(report);
        var laneTop = Top + Tall + 10;
        var bottom = lanes.Count == 0 ? Top + Tall : laneTop + lanes.Count * Lanes.Height;
        using var drawing = new Drawing(surface, width, bottom + 40, ReportWords.StrokePlotSays(report), variant);
        var unit = TimeAxis.For(to - from);
        var time = new AxisScale(from / unit.Seconds, to / unit.Seconds, Side, width - Side - 6);
        var band = report.Feeder.Band;
        var (least, most) = Extent(trace, band.Low.Metres, band.Limit.Metres);
        var stroke = new AxisScale(least, most, Top + Tall, Top);
        var frame = new PlotFrame(drawing, time, stroke with { From = 1e3 * least, To = 1e3 * most });

        frame.BottomAxis(ReportWords.TimeAxis(unit.Symbol), (int)(width / 90), bottom);
        frame.LeftAxis("mm", 7);
        frame.RightAxis("in", least / Length.MetresPerInch, most / Length.MetresPerInch, 7);
        drawing.Box(time.Start, stroke.At(band.High.Metres), time.End, stroke.At(band.Low.Metres), "band");
        drawing.Line(time.Start, stroke.At(band.Low.Metres), time.End, stroke.At(band.Low.Metres), "edge");
        drawing.Line(time.Start, stroke.At(band.High.Metres), time.End, stroke.At(band.High.Metres), "edge");
        drawing.Line(time.Start, stroke.At(band.Limit.Metres), time.End, stroke.At(band.Limit.Metres), "limit");

        var points = new List<(double X, double Y)>();
        foreach (var piece in trace.Pieces)
        {
            double X(TracePoint point) => time.At(point.Seconds / unit.Seconds);
            var above = piece.Select(point => (X(point), stroke.At(point.Above))).ToList();
            var below = piece.Select(point => (X(point), stroke.At(point.Below))).ToList();
            drawing.Through(above.Concat(below.AsEnumerable().Reverse()), "ribbon", closed: true);
            drawing.Through(above, "ribbon-edge");
            drawing.Through(below, "ribbon-edge");
            var line = piece.SelectMany(point => trace.Thinned && point.Least < point.Most
                ? [(X(point), stroke.At(point.Least)), (X(point), stroke.At(point.Most))]
                : (IEnumerable<(double X, double Y)>)[(X(point), stroke.At(point.Least))]).ToList();
            drawing.Through(line, "ink");
            points.AddRange(line);
            foreach (var (x, y) in report.Windows.Count <= MostDots || piece.Count == 1 ? line : [])
            {
                drawing.Dot(x, y, 2.4, "dot");
            }
        }

        foreach (var (seconds, bound) in trace.Bounds)
        {
            var foot = (X: time.At(seconds / unit.Seconds), Y: stroke.At(bound));
            drawing.PathAt(foot.X, foot.Y, "M-5 0H5M0 0V-14M-4 -9L0 -14L4 -9", "tick-end");
            points.Add(foot);
        }

        Labels(drawing, points, time, stroke, band.Low.Metres, band.High.Metres, band.Limit.Metres);
        for (var i = 0; i < lanes.Count; i++)
        {
            Lanes.Draw(drawing, lanes[i], time, unit.Seconds, laneTop + i * Lanes.Height);
        }
    }

    private static (double Least, double Most) Extent(StrokeTrace trace, double low, double limit)
    {
        var (least, most) = (low, limit);
        foreach (var point in trace.Pieces.SelectMany(piece => piece))
        {
            (least, most) = (Math.Min(least, point.Below), Math.Max(most, point.Above));
        }

        foreach (var (_, bound) in trace.Bounds)
        {
            (least, most) = (Math.Min(least, bound), Math.Max(most, bound));
        }

        var margin = 0.1 * (most - least);
        return (Math.Max(0, least - margin), most + margin);
    }

    private static void Labels(
        Drawing drawing, IReadOnlyList<(double X, double Y)> points, AxisScale time, AxisScale stroke, double low, double high, double limit)
    {
        var placer = new LabelPlacer(points);
        void Label(string text, string look, double line, double other)
        {
            var (x, y) = placer.Along(text, time.Start + 6, time.End - 6, stroke.At(line) - 6, stroke.At(other) + 15);
            drawing.Text(x, y, text, "start", look);
        }

        Label(ReportWords.LimitLabel(limit), "label strong halo", limit, limit);
        Label(ReportWords.BandLabel(low, high), "label halo", high, low);
    }
}
