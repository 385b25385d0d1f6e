using PdfSharp.Drawing;
using StrokeWatch.Reports.Html;

namespace StrokeWatch.Reports.Pdf;

/// <summary>Paints drawings as vectors on the pages of a document, scaled to the width between the margins.</summary>
internal sealed class PdfPainter(PdfFlow flow) : IDrawingSurface
{
    private XGraphicsState? state;
    private double scale = 1;
    private double height;

    /// <inheritdoc/>
    public void Begin(double width, double height, string says, string variant)
    {
        scale = flow.Width / width;
        this.height = scale * height;
        flow.Need(this.height);
        state = flow.Graphics.Save();
        flow.Graphics.TranslateTransform(PdfFlow.Margin, flow.Y);
        flow.Graphics.ScaleTransform(scale);
    }

    /// <inheritdoc/>
    public void Path(string steps, string look) => PathAt(0, 0, steps, look);

    /// <inheritdoc/>
    public void PathAt(double x, double y, string steps, string look)
    {
        foreach (var (points, closed) in PathSteps.Read(steps))
        {
            Shape([.. points.Select(point => new XPoint(x + point.X, y + point.Y))], closed, PdfLooks.Of(look));
        }
    }

    /// <inheritdoc/>
    public void Box(double left, double top, double right, double bottom, string look) =>
        Shape([new(left, top), new(Math.Max(left, right), top), new(Math.Max(left, right), Math.Max(top, bottom)), new(left, Math.Max(top, bottom))], true, PdfLooks.Of(look));

    /// <inheritdoc/>
    public void Dot(double x, double y, double radius, string look)
    {
        var shape = PdfLooks.Of(look);
        var box = new XRect(x - radius, y - radius, 2 * radius, 2 * radius);
        if (shape.Fill is { } fill)
        {
            flow.Graphics.DrawEllipse(new XSolidBrush(fill), box);
        }

        if (shape.Stroke is not null)
        {
            flow.Graphics.DrawEllipse(Pen(shape), box);
        }
    }

    /// <inheritdoc/>
    public void Text(double x, double y, string text, string anchor, string look)
    {
        var font = flow.Fonts.Of(look.Contains("number", StringComparison.Ordinal) ? 11.5 : 12, look.Contains("strong", StringComparison.Ordinal));
        var shown = flow.Fonts.Shown(text);
        var width = flow.Measure(shown, font);
        var left = anchor switch { "middle" => x - 0.5 * width, "end" => x - width, _ => x };
        if (look.Contains("halo", StringComparison.Ordinal))
        {
            flow.Graphics.DrawRectangle(new XSolidBrush(XColor.FromArgb(225, 255, 255, 255)), left - 2, y - 0.82 * font.Size, width + 4, 1.06 * font.Size);
        }

        flow.Graphics.DrawString(shown, font, new XSolidBrush(PdfLooks.Text(look)), left, y);
    }

    /// <inheritdoc/>
    public void End()
    {
        flow.Graphics.Restore(state!);
        flow.Y += height;
    }

    private void Shape(XPoint[] points, bool closed, PdfLook look)
    {
        if (look.Fill is { } fill && points.Length > 2)
        {
            flow.Graphics.DrawPolygon(new XSolidBrush(fill), points, XFillMode.Winding);
        }

        if (look.Hatch is { } hatch && points.Length > 2)
        {
            Hatch(points, hatch, look);
        }

        if (look.Stroke is null || points.Length < 2)
        {
            return;
        }

        if (closed)
        {
            flow.Graphics.DrawPolygon(Pen(look), points);
        }
        else
        {
            flow.Graphics.DrawLines(Pen(look), points);
        }
    }

    /// <summary>Hatches from lower left to upper right; one lattice for the whole drawing, as in the pages.</summary>
    private void Hatch(XPoint[] points, XColor colour, PdfLook look)
    {
        var (left, right, top, bottom) = (points.Min(point => point.X), points.Max(point => point.X), points.Min(point => point.Y), points.Max(point => point.Y));
        var inner = flow.Graphics.Save();
        var outline = new XGraphicsPath();
        outline.AddPolygon(points);
        flow.Graphics.IntersectClip(outline);
        var (pen, step) = (new XPen(colour, look.HatchWidth), look.Pitch * Math.Sqrt(2));
        for (var sum = Math.Ceiling((left + top) / step) * step; sum <= right + bottom; sum += step)
        {
            flow.Graphics.DrawLine(pen, sum - bottom, bottom, sum - top, top);
        }

        flow.Graphics.Restore(inner);
    }

    /// <summary>Makes a pen; PDFsharp takes dashes in widths of the pen.</summary>
    private static XPen Pen(PdfLook look)
    {
        var pen = new XPen(look.Stroke!.Value, look.Width) { LineJoin = XLineJoin.Round };
        if (look.Dash is { } dash)
        {
            pen.DashPattern = [.. dash.Select(length => length / look.Width)];
        }

        return pen;
    }
}
