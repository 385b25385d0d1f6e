using StrokeWatch.Reports.Html;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Reports.Sheets;

/// <summary>Draws a sheet's plot with the report's own axes and looks.</summary>
internal static class SheetDrawing
{
    private const double Top = 30, Tall = 300, Side = 56;

    /// <summary>Draws it.</summary>
    public static void Draw(Markup page, SheetPlot plot, double width, string variant) => Draw(new SvgSurface(page), plot, width, variant);

    /// <summary>Draws it on a surface.</summary>
    public static void Draw(IDrawingSurface surface, SheetPlot plot, double width, string variant = "")
    {
        using var drawing = new Drawing(surface, width, Top + Tall + 44, plot.Says, variant);
        var x = new AxisScale(plot.X.From, plot.X.To, Side, width - (plot.Inches ? Side + 4 : 14));
        var y = new AxisScale(plot.Y.From, plot.Y.To, Top + Tall, Top);
        var frame = new PlotFrame(drawing, x, y);
        frame.BottomAxis(plot.XWords, (int)(width / 80));
        frame.LeftAxis(plot.YUnit, 8);
        if (plot.Inches)
        {
            var inch = Length.MetresPerInch * 1e3;
            frame.RightAxis("in", plot.Y.From / inch, plot.Y.To / inch, 8);
        }

        if (plot.Band is { } band)
        {
            drawing.Box(x.Start, y.At(Math.Min(band.High, plot.Y.To)), x.End, y.At(Math.Max(band.Low, plot.Y.From)), "band");
        }

        if (plot.Ribbon.Count > 0)
        {
            var above = plot.Ribbon.Select(point => (x.At(point.X), y.At(Math.Clamp(point.High, plot.Y.From, plot.Y.To)))).ToList();
            var below = plot.Ribbon.Select(point => (x.At(point.X), y.At(Math.Clamp(point.Low, plot.Y.From, plot.Y.To)))).ToList();
            drawing.Through(above.Concat(below.AsEnumerable().Reverse()), "ribbon", closed: true);
            drawing.Through(above, "ribbon-edge");
            drawing.Through(below, "ribbon-edge");
        }

        var points = new List<(double X, double Y)>();
        foreach (var line in plot.Lines)
        {
            foreach (var piece in Pieces(line.Points, plot))
            {
                var places = piece.Select(point => (x.At(point.X), y.At(point.Y))).ToList();
                drawing.Through(places, line.Look);
                points.AddRange(places);
            }
        }

        Marks(drawing, plot, x, y, points);
    }

    private static void Marks(Drawing drawing, SheetPlot plot, AxisScale x, AxisScale y, List<(double X, double Y)> points)
    {
        points.AddRange(plot.Marks.Where(mark => !double.IsNaN(mark.X) && !double.IsNaN(mark.Y)).Select(mark => (x.At(mark.X), y.At(mark.Y))));
        var placer = new LabelPlacer(points);
        foreach (var mark in plot.Marks)
        {
            var inside = (double.IsNaN(mark.X) || (mark.X >= plot.X.From && mark.X <= plot.X.To)) && (double.IsNaN(mark.Y) || (mark.Y >= plot.Y.From && mark.Y <= plot.Y.To));
            if (!inside)
            {
                continue;
            }

            if (double.IsNaN(mark.X))
            {
                var at = y.At(mark.Y);
                drawing.Line(x.Start, at, x.End, at, mark.Look);
                Label(drawing, placer, mark.Words, x.Start + 6, x.End - 6, at - 6, at + 15);
            }
            else if (double.IsNaN(mark.Y))
            {
                var at = x.At(mark.X);
                drawing.Line(at, y.Start, at, y.End, mark.Look);
                Label(drawing, placer, mark.Words, at + 5, at + 5, y.End + 14, y.Start - 8);
            }
            else
            {
                drawing.Dot(x.At(mark.X), y.At(mark.Y), mark.Look == "dot" ? 3 : 4.6, mark.Look);
                Label(drawing, placer, mark.Words, Math.Max(x.Start + 4, x.At(mark.X) - 40), Math.Min(x.End - 6, x.At(mark.X) + Drawing.TextWidth(mark.Words, 12) + 8), y.At(mark.Y) - 9, y.At(mark.Y) + 18);
            }
        }
    }

    private static void Label(Drawing drawing, LabelPlacer placer, string words, double left, double right, params ReadOnlySpan<double> baselines)
    {
        if (words.Length > 0)
        {
            var (x, y) = placer.Along(words, left, right, baselines);
            drawing.Text(Math.Max(4, Math.Min(x, drawing.Width - Drawing.TextWidth(words, 12) - 4)), y, words, "start", "label halo");
        }
    }

    /// <summary>Cuts a line where it leaves the plot or is not a number.</summary>
    private static IEnumerable<List<(double X, double Y)>> Pieces(IReadOnlyList<(double X, double Y)> points, SheetPlot plot)
    {
        var piece = new List<(double X, double Y)>();
        foreach (var point in points)
        {
            if (double.IsFinite(point.Y) && point.Y >= plot.Y.From && point.Y <= plot.Y.To && point.X >= plot.X.From && point.X <= plot.X.To)
            {
                piece.Add(point);
                continue;
            }

            if (piece.Count > 1)
            {
                yield return piece;
            }

            piece = [];
        }

        if (piece.Count > 1)
        {
            yield return piece;
        }
    }
}
