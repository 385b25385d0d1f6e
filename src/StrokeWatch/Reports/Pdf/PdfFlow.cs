using PdfSharp.Drawing;
using PdfSharp.Pdf;

namespace StrokeWatch.Reports.Pdf;

/// <summary>Text and drawings down the pages of a document, one after the other.</summary>
internal sealed class PdfFlow : IDisposable
{
    /// <summary>The margin at the sides and above, in points: 15 mm.</summary>
    public const double Margin = 42.5;

    private const double Below = 54, FooterSize = 7.5;

    private readonly PdfDocument document;
    private readonly PdfPaper paper;
    private readonly XGraphics measure;
    private XGraphics? graphics;

    /// <summary>Begins the first page.</summary>
    public PdfFlow(PdfDocument document, PdfFonts fonts, PdfPaper paper)
    {
        (this.document, Fonts, this.paper) = (document, fonts, paper);
        measure = XGraphics.CreateMeasureContext(new XSize(paper.Width, paper.Height), XGraphicsUnit.Point, XPageDirection.Downwards);
        NewPage();
    }

    /// <summary>Gets the fonts.</summary>
    public PdfFonts Fonts { get; }

    /// <summary>Gets what the present page is drawn with.</summary>
    public XGraphics Graphics => graphics!;

    /// <summary>Gets the present page.</summary>
    public PdfPage Page { get; private set; } = null!;

    /// <summary>Gets or sets how far down the page the next thing stands, in points.</summary>
    public double Y { get; set; }

    /// <summary>Gets the width between the margins.</summary>
    public double Width => paper.Width - 2 * Margin;

    /// <summary>Gets the height of an empty page between the margins.</summary>
    public double Height => paper.Height - Margin - Below;

    /// <summary>Gets whether nothing stands on the page yet.</summary>
    public bool AtTop => Y <= Margin;

    /// <summary>Begins a new page where there is no room for a height; gives whether it did.</summary>
    public bool Need(double height)
    {
        if (AtTop || Y + height <= paper.Height - Below + 1e-6)
        {
            return false;
        }

        NewPage();
        return true;
    }

    /// <summary>Measures a text that is shown as it is.</summary>
    public double Measure(string text, XFont font) => text.Length == 0 ? 0 : measure.MeasureString(text, font).Width;

    /// <summary>Writes one line; its top is at a height of the page.</summary>
    public void Line(string text, XFont font, XColor colour, double x, double top) =>
        Graphics.DrawString(text, font, new XSolidBrush(colour), x, top + 0.95 * font.Size);

    /// <summary>Draws a level line.</summary>
    public void Rule(double x1, double x2, double y, double width, XColor colour) => Graphics.DrawLine(new XPen(colour, width), x1, y, x2, y);

    /// <summary>Writes a paragraph, over pages where it must be; never one line of it alone at a page's end.</summary>
    public void Paragraph(string text, double size, bool bold, XColor colour, double indent = 0, double after = 4)
    {
        var font = Fonts.Of(size, bold);
        var lines = PdfLines.Wrap(this, text, font, Width - indent);
        var leading = Leading(size);
        Need(Math.Min(lines.Count, 2) * leading);
        foreach (var line in lines)
        {
            Need(leading);
            Line(line, font, colour, Margin + indent, Y);
            Y += leading;
        }

        Y += after;
    }

    /// <summary>Gives the distance of lines of a size.</summary>
    public static double Leading(double size) => 1.32 * size;

    /// <summary>Ends the last page, and writes a foot with its number under each.</summary>
    public void Finish(string foot)
    {
        graphics?.Dispose();
        graphics = null;
        var font = Fonts.Of(FooterSize);
        var shown = PdfLines.Wrap(this, foot, font, Width - 80)[0];
        for (var i = 0; i < document.PageCount; i++)
        {
            using var page = XGraphics.FromPdfPage(document.Pages[i]);
            var (top, number) = (paper.Height - 36, FormattableString.Invariant($"page {i + 1} of {document.PageCount}"));
            page.DrawLine(new XPen(PdfLooks.Line, 0.5), Margin, top - 6, paper.Width - Margin, top - 6);
            page.DrawString(shown, font, new XSolidBrush(PdfLooks.Soft), Margin, top + FooterSize);
            page.DrawString(number, font, new XSolidBrush(PdfLooks.Soft), paper.Width - Margin - Measure(number, font), top + FooterSize);
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        graphics?.Dispose();
        measure.Dispose();
    }

    private void NewPage()
    {
        graphics?.Dispose();
        Page = document.AddPage();
        (Page.Width, Page.Height) = (XUnit.FromPoint(paper.Width), XUnit.FromPoint(paper.Height));
        graphics = XGraphics.FromPdfPage(Page);
        Y = Margin;
    }
}
