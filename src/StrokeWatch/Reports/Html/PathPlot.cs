using StrokeWatch.Measurement.Stroke;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Reports.Html;

/// <summary>The tray's path in the x-z plane at equal scales, with its line of action and the stroke along it.</summary>
internal static class PathPlot
{
    private const double Width = 440;
    private const double Top = 34;
    private const double Side = 290;
    private const double Left = 74;
    private const int Points = 360;

    /// <summary>Says whether a capture has the axes for it.</summary>
    public static bool Possible(WindowPortrait portrait) => portrait.Channel(Axis.X) is not null && portrait.Channel(Axis.Z) is not null;

    /// <summary>Draws the plot.</summary>
    /// <param name="page">The page.</param>
    /// <param name="portrait">The window.</param>
    /// <param name="strokeMetres">The window's stroke as it was first read, in metres.</param>
    public static void Draw(Markup page, WindowPortrait portrait, double strokeMetres)
    {
        using var drawing = new Drawing(page, Width, Top + Side + 40, ReportWords.PathSays);
        var (along, up) = (portrait.Channel(Axis.X)!.Value, portrait.Channel(Axis.Z)!.Value);
        var path = Enumerable.Range(0, Points).Select(i => (double)i / Points)
            .Select(cycles => (X: portrait.DisplacementAt(along, cycles), Z: portrait.DisplacementAt(up, cycles))).ToList();
        var most = 1.25 * path.Max(point => Math.Max(Math.Abs(point.X), Math.Abs(point.Z)));
        var x = new AxisScale(-most, most, Left, Left + Side);
        var z = new AxisScale(-most, most, Top + Side, Top);
        var frame = new PlotFrame(drawing, x with { From = -1e3 * most, To = 1e3 * most }, z with { From = -1e3 * most, To = 1e3 * most });
        frame.BottomAxis(ReportWords.PathAlong, 7);
        frame.LeftAxis(ReportWords.PathUp, 7);
        frame.RightAxis("in", -most / Length.MetresPerInch, most / Length.MetresPerInch, 7);

        var (dx, dz) = (portrait.Direction[along], portrait.Direction[up]);
        var norm = Math.Sqrt(dx * dx + dz * dz);
        (dx, dz) = dx < 0 ? (-dx / norm, -dz / norm) : (dx / norm, dz / norm);
        var reach = 0.98 * most / Math.Max(Math.Abs(dx), Math.Abs(dz));
        drawing.Line(x.At(-reach * dx), z.At(-reach * dz), x.At(reach * dx), z.At(reach * dz), "line");
        drawing.Through(path.Select(point => (x.At(point.X), z.At(point.Z))), "ink", closed: true);
        foreach (var end in (double[])[path.Min(point => point.X * dx + point.Z * dz), path.Max(point => point.X * dx + point.Z * dz)])
        {
            // A tick square to the line, as on a workshop drawing, where the stroke ends.
            var (px, pz) = (x.At(end * dx), z.At(end * dz));
            drawing.Line(px - 12 * dz, pz - 12 * dx, px + 12 * dz, pz + 12 * dx, "tick-end");
        }

        var rising = dx * dz >= 0;
        var (anchor, place) = rising ? ("start", x.Start + 8) : ("end", x.End - 8);
        drawing.Text(place, Top + 18, ReportWords.PathStroke(strokeMetres), anchor, "label halo");
        drawing.Text(place, Top + 36, ReportWords.PathLine(Math.Atan2(dz, dx) * 180 / Math.PI), anchor, "label halo");
    }
}
