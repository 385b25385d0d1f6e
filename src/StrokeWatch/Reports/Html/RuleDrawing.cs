using StrokeWatch.Assessment.Reports;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Reports.Html;

/// <summary>The stroke on a two-edged rule, millimetres along the top and inches along the bottom, with band, limit, and a wedge where the stroke stands.</summary>
internal static class RuleDrawing
{
    private const double Top = 30;
    private const double Body = 78;
    private const double Edge = 8;

    /// <summary>Draws the rule.</summary>
    public static void Draw(Markup page, AssessmentReport report, double width, string variant) => Draw(new SvgSurface(page), report, width, variant);

    /// <summary>Draws the rule on a surface.</summary>
    public static void Draw(IDrawingSurface surface, AssessmentReport report, double width, string variant = "")
    {
        using var drawing = new Drawing(surface, width, Top + Body + 42, ReportWords.RuleSays(report), variant);
        var (low, high, limit) = (report.Feeder.Band.Low.Metres, report.Feeder.Band.High.Metres, report.Feeder.Band.Limit.Metres);
        var margin = 0.8 * (limit - low);
        var stroke = report.Stroke.Stroke;
        var spread = report.Stroke.Uncertainty ?? 0;
        var from = Math.Min(low - margin, (stroke - spread ?? low) - 0.3 * margin);
        var scale = new AxisScale(Math.Max(from, 0), Math.Max(limit + margin, (stroke + spread ?? limit) + 0.3 * margin), Edge, width - Edge);

        drawing.Box(2, Top, width - 2, Top + Body, "body");
        drawing.Box(scale.At(low), Top + 28, scale.At(high), Top + Body - 28, "band");
        drawing.Line(scale.At(low), Top, scale.At(low), Top + Body + 5, "edge");
        drawing.Line(scale.At(high), Top, scale.At(high), Top + Body + 5, "edge");
        drawing.Line(scale.At(limit), Top, scale.At(limit), Top + Body + 5, "limit");
        Graduate(drawing, scale, 1e-3, Top, 1);
        Graduate(drawing, scale, Length.MetresPerInch, Top + Body, -1);
        drawing.Text(width - 7, Top + 24, "mm", "end", "unit");
        drawing.Text(width - 7, Top + Body - 15, "in", "end", "unit");
        Captions(drawing, scale, low, high, limit);
        if (stroke is { } at)
        {
            drawing.Line(scale.At(at - spread), Top - 16, scale.At(at + spread), Top - 16, "spread");
            drawing.Line(scale.At(at - spread), Top - 21, scale.At(at - spread), Top - 11, "spread");
            drawing.Line(scale.At(at + spread), Top - 21, scale.At(at + spread), Top - 11, "spread");
            drawing.PathAt(scale.At(at), Top, "M0 9L-7 -26H7Z", "wedge");
        }
    }

    private static void Graduate(Drawing drawing, AxisScale scale, double unit, double edge, int inward)
    {
        var (from, to) = (scale.From / unit, scale.To / unit);
        var labelled = Ticks.Step(to - from, (int)(drawing.Width / 78));
        var parts = labelled / Math.Pow(10, Math.Floor(Math.Log10(labelled) + 1e-9)) is > 1.5 and < 3 ? 4 : 10;
        var fine = labelled / parts;
        foreach (var value in Ticks.Between(from, to, fine))
        {
            var index = (long)Math.Round(value / fine);
            var length = index % parts == 0 ? 12 : 2 * (index % parts) % parts == 0 ? 8 : 5;
            drawing.Line(scale.At(value * unit), edge, scale.At(value * unit), edge + inward * length, "axis");
            var at = scale.At(value * unit);
            if (index % parts == 0 && at > 16 && at < drawing.Width - 46)
            {
                var half = 0.5 * Drawing.TextWidth(Figure.Of(value, Ticks.Digits(labelled)), 11.5);
                var baseline = inward > 0 ? edge + 24 : edge - 15.5;
                drawing.Box(at - half, baseline - 10, at + half, baseline + 2, "plate");
                drawing.Text(at, baseline, Figure.Of(value, Ticks.Digits(labelled)), "middle", "number");
            }
        }
    }

    private static void Captions(Drawing drawing, AxisScale scale, double low, double high, double limit)
    {
        var band = ReportWords.BandShort(low, high);
        var over = ReportWords.LimitShort(limit);
        var half = 0.5 * Drawing.TextWidth(band, 12);
        var middle = Math.Clamp(scale.At(0.5 * (low + high)), half + 2, drawing.Width - half - 2);
        var overWidth = Drawing.TextWidth(over, 12);
        var overLeft = Math.Min(scale.At(limit) - 4, drawing.Width - overWidth - 2);
        var second = overLeft < middle + half + 10;
        drawing.Text(middle, Top + Body + 18, band, "middle");
        drawing.Text(overLeft, Top + Body + (second ? 36 : 18), over, "start", "label strong");
    }
}
