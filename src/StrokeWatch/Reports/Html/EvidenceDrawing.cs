using StrokeWatch.Assessment.Findings;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Reports.Html;

/// <summary>Draws the evidence of a finding: a line over the capture's time, or a bar for each sensor, against the limits.</summary>
internal static class EvidenceDrawing
{
    private const double Width = 400, Height = 178, Left = 50, Top = 30, LabelSize = 11;
    private const string Millimetres = "mm";

    /// <summary>Draws a plot; nothing where no value was measured.</summary>
    public static void Draw(Markup page, EvidencePlot plot)
    {
        if (!plot.Points.Any(point => point.Value is not null))
        {
            return;
        }

        page.Open("figure");
        Draw(new Drawing(page, Width, Height, Says(plot)), plot);
        page.Leaf("figcaption", $"{plot.Words}{(plot.Unit.Length > 0 ? $", {plot.Unit}" : "")}.");
        page.Close();
    }

    private static void Draw(Drawing begun, EvidencePlot plot)
    {
        using var drawing = begun;
        var metric = plot.Unit == Millimetres;
        var (least, most) = Extent(plot);
        var value = new AxisScale(least, most, Height - 42, Top);
        var right = Width - (metric ? 52 : 12);
        var (from, to) = plot.OverTime ? (plot.Points[0].AtSeconds, Math.Max(plot.Points[^1].AtSeconds, plot.Points[0].AtSeconds + 1e-3)) : (0, plot.Points.Count);
        var unit = plot.OverTime ? TimeAxis.For(to - from) : new TimeAxis(1, "");
        var across = new AxisScale(from / unit.Seconds, to / unit.Seconds, Left, right);
        var frame = new PlotFrame(drawing, across, value);
        frame.LeftAxis(metric ? Millimetres : plot.Unit, 4);
        if (metric)
        {
            frame.RightAxis("in", 1e-3 * least / Length.MetresPerInch, 1e-3 * most / Length.MetresPerInch, 4);
        }

        if (plot.OverTime)
        {
            frame.BottomAxis(ReportWords.TimeAxis(unit.Symbol), 5);
            Course(drawing, plot, across, unit, value);
        }
        else
        {
            Bars(drawing, plot, across, value);
        }

        Limits(drawing, plot, across, value);
    }

    /// <summary>Says what is drawn, for those who cannot see it.</summary>
    private static string Says(EvidencePlot plot)
    {
        var unit = plot.Unit.Length > 0 ? $" in {plot.Unit}" : "";
        var values = plot.Points.Where(point => point.Value is not null).Select(point => point.Value!.Value).ToList();
        var limits = string.Join(", ", plot.Limits.Select(limit => $"{limit.Words} {Figure.Of(limit.Value, 3)}"));
        return $"{plot.Words}{unit}, {(plot.OverTime ? "over the time of the capture" : "sensor by sensor")}: from {Figure.Of(values.Min(), 3)} to {Figure.Of(values.Max(), 3)}{(limits.Length > 0 ? $"; {limits}" : "")}";
    }

    private static (double Least, double Most) Extent(EvidencePlot plot)
    {
        // Bars begin at nothing; a line shows where it moves.
        var values = plot.Points.Select(point => point.Value).OfType<double>().Concat(Shown(plot).Select(limit => limit.Value)).ToList();
        var (least, most) = (plot.OverTime ? values.Min() : Math.Min(0, values.Min()), values.Max());
        var margin = Math.Max(0.12 * (most - least), 1e-3 * Math.Max(1, Math.Abs(most)));
        return (plot.OverTime ? least - margin : least, most + margin);
    }

    /// <summary>Gives the limits that belong in sight: those of a side on which nothing lies near would press the values into a corner.</summary>
    private static IEnumerable<EvidenceLimit> Shown(EvidencePlot plot)
    {
        var values = plot.Points.Select(point => point.Value).OfType<double>().ToList();
        var (least, most) = (values.Min(), values.Max());
        return plot.Limits.Where(limit => limit.Value >= 0 || least < 0).Where(limit => limit.Value > 0 || most <= 0 || least < 0);
    }

    private static void Course(Drawing drawing, EvidencePlot plot, AxisScale across, TimeAxis unit, AxisScale value)
    {
        var piece = new List<(double X, double Y)>();
        foreach (var point in plot.Points.Append(default))
        {
            if (point.Value is { } here)
            {
                piece.Add((across.At(point.AtSeconds / unit.Seconds), value.At(here)));
                continue;
            }

            if (piece.Count > 1)
            {
                drawing.Through(piece, "ink");
            }

            foreach (var (x, y) in plot.Points.Count <= 60 || piece.Count == 1 ? piece : [])
            {
                drawing.Dot(x, y, 2.2, "dot");
            }

            piece.Clear();
        }
    }

    private static void Bars(Drawing drawing, EvidencePlot plot, AxisScale across, AxisScale value)
    {
        drawing.Line(across.Start, value.At(0), across.End, value.At(0), "axis");
        var room = (across.End - across.Start) / plot.Points.Count;
        for (var i = 0; i < plot.Points.Count; i++)
        {
            var (name, _, found) = plot.Points[i];
            var middle = across.At(i + 0.5);
            if (found is { } here)
            {
                drawing.Box(middle - (0.3 * room), value.At(Math.Max(0, here)), middle + (0.3 * room), value.At(Math.Min(0, here)), "order");
            }

            // Names that would run into each other take turns on two lines.
            var lines = Drawing.TextWidth(name, LabelSize) > 0.95 * room ? i % 2 : 0;
            drawing.Text(middle, value.Start + 14 + (14 * lines), found is null ? $"{name}: none" : name, "middle", "label");
        }
    }

    private static void Limits(Drawing drawing, EvidencePlot plot, AxisScale across, AxisScale value)
    {
        var last = double.NaN;
        foreach (var limit in Shown(plot).OrderByDescending(limit => limit.Value))
        {
            var at = value.At(limit.Value);
            drawing.Line(across.Start, at, across.End, at, "limit");

            // Words of lines too near each other would cover each other: the upper one keeps its own.
            if (!(at - last < 14))
            {
                drawing.Text(across.End - 4, at - 4, limit.Words, "end", "label halo");
                last = at;
            }
        }
    }
}
