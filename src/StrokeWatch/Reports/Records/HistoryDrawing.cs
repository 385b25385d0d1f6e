using System.Globalization;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Reports.Html;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Reports.Records;

/// <summary>Draws the stroke over a period: smallest and largest of each part, band, limit, and when alarms were raised.</summary>
internal static class HistoryDrawing
{
    private const double Top = 30, Tall = 210, Side = 52, Lane = 24, Unmixed = 1.5;

    private static readonly TimeSpan[] Steps =
    [
        TimeSpan.FromMinutes(1), TimeSpan.FromMinutes(5), TimeSpan.FromMinutes(15), TimeSpan.FromHours(1), TimeSpan.FromHours(3), TimeSpan.FromHours(6), TimeSpan.FromHours(12),
        TimeSpan.FromDays(1), TimeSpan.FromDays(2), TimeSpan.FromDays(5), TimeSpan.FromDays(10), TimeSpan.FromDays(30), TimeSpan.FromDays(90), TimeSpan.FromDays(180), TimeSpan.FromDays(365), TimeSpan.FromDays(1825), TimeSpan.FromDays(18250),
    ];

    /// <summary>Draws it.</summary>
    public static void Draw(IDrawingSurface surface, RecordHistory history, StrokeBand band, double width)
    {
        using var drawing = new Drawing(surface, width, Top + Tall + Lane + 42, "Stroke over the period, with the band and the limit");
        var length = (history.To - history.From).TotalSeconds;
        var time = new AxisScale(0, length, Side, width - Side - 6);
        var least = Math.Min(band.Low.Metres, history.Columns.Min(column => column.LeastMetres));
        var most = Math.Max(band.Limit.Metres, history.Columns.Max(column => column.MostMetres));
        var (from, to) = (Math.Max(0, least - 0.1 * (most - least)), most + 0.1 * (most - least));
        var stroke = new AxisScale(from, to, Top + Tall, Top);
        var frame = new PlotFrame(drawing, time, stroke with { From = 1e3 * from, To = 1e3 * to });
        TimeTicks(drawing, history, time);
        frame.LeftAxis("mm", 6);
        frame.RightAxis("in", from / Length.MetresPerInch, to / Length.MetresPerInch, 6);
        drawing.Box(time.Start, stroke.At(band.High.Metres), time.End, stroke.At(band.Low.Metres), "band");
        drawing.Line(time.Start, stroke.At(band.Limit.Metres), time.End, stroke.At(band.Limit.Metres), "limit");
        var points = Trace(drawing, history, time, stroke, length / RecordHistory.Parts);
        foreach (var alarm in history.Alarms.Where(alarm => alarm.Raised >= history.From))
        {
            drawing.PathAt(time.At((alarm.Raised!.Value - history.From).TotalSeconds), Top + Tall + 14, "M0 -6L6 5H-6Z", "sign");
        }

        var placer = new LabelPlacer(points);
        Label(ReportWords.LimitLabel(band.Limit.Metres), band.Limit.Metres, band.Limit.Metres);
        Label(ReportWords.BandLabel(band.Low.Metres, band.High.Metres), band.High.Metres, band.Low.Metres);

        void Label(string words, double line, double other)
        {
            var (x, y) = placer.Along(words, time.Start + 6, time.End - 6, stroke.At(line) - 6, stroke.At(other) + 15);
            drawing.Text(x, y, words, "start", "label halo");
        }
    }

    private static List<(double X, double Y)> Trace(Drawing drawing, RecordHistory history, AxisScale time, AxisScale stroke, double part)
    {
        var all = new List<(double X, double Y)>();
        var start = 0;
        for (var i = 1; i <= history.Columns.Count; i++)
        {
            if (i < history.Columns.Count && history.Columns[i].Index == history.Columns[i - 1].Index + 1)
            {
                continue;
            }

            // A part has a width: without it, one that stands alone would be a line of no length.
            var piece = history.Columns.Skip(start).Take(i - start).ToList();
            double X(int index, double share) => time.At((index + share) * part);
            var above = piece.SelectMany(column => new[] { (X(column.Index, 0), stroke.At(column.MostMetres)), (X(column.Index, 1), stroke.At(column.MostMetres)) }).ToList();
            var below = piece.SelectMany(column => new[] { (X(column.Index, 0), stroke.At(column.LeastMetres)), (X(column.Index, 1), stroke.At(column.LeastMetres)) }).ToList();
            drawing.Through(above.Concat(below.AsEnumerable().Reverse()), "ribbon", closed: true);
            drawing.Through(above, "trace");
            if (below.Zip(above).Any(pair => pair.First.Item2 - pair.Second.Item2 > Unmixed))
            {
                drawing.Through(below, "trace");
            }

            all.AddRange(above);
            all.AddRange(below);
            start = i;
        }

        return all;
    }

    private static void TimeTicks(Drawing drawing, RecordHistory history, AxisScale time)
    {
        var bottom = Top + Tall + Lane;
        var step = Steps.FirstOrDefault(step => (history.To - history.From) / step <= drawing.Width / 90, Steps[^1]);
        var format = step < TimeSpan.FromDays(1) ? "MM-dd HH:mm" : "yyyy-MM-dd";
        drawing.Line(time.Start, bottom, time.End, bottom, "axis");
        for (var ticks = history.From.UtcTicks / step.Ticks * step.Ticks; ticks < history.To.UtcTicks; ticks += step.Ticks)
        {
            if (ticks < history.From.UtcTicks)
            {
                continue;
            }

            var at = time.At(TimeSpan.FromTicks(ticks - history.From.UtcTicks).TotalSeconds);
            drawing.Line(at, Top, at, bottom, "grid");
            drawing.Line(at, bottom, at, bottom + 5, "axis");
            var words = new DateTime(ticks, DateTimeKind.Utc).ToString(format, CultureInfo.InvariantCulture);
            drawing.Text(Math.Clamp(at, 40, drawing.Width - 40), bottom + 17, words, "middle", "number");
        }

        drawing.Text(0.5 * (time.Start + time.End), bottom + 33, "time, UTC", "middle", "unit");
    }
}
