using System.Text;
using PdfSharp.Drawing;
using PdfSharp.Fonts;
using PdfSharp.Pdf;

namespace StrokeWatch.Reports.Pdf;

/// <summary>The fonts of one PDF document, and what of a text they can show.</summary>
internal sealed class PdfFonts
{
    private static readonly XPdfFontOptions Options = new(PdfFontEncoding.Unicode);
    private static readonly FontCoverage Coverage = Begin();

    private readonly Dictionary<(double Size, bool Bold), XFont> fonts = [];

    /// <summary>Gets whether a text held characters that the font lacks; they are shown as U+FFFD.</summary>
    public bool Lacking { get; private set; }

    /// <summary>Gives a font of a size in points.</summary>
    public XFont Of(double size, bool bold = false)
    {
        if (!fonts.TryGetValue((size, bold), out var font))
        {
            fonts[(size, bold)] = font = new(PdfFontResolver.Family, size, bold ? XFontStyleEx.Bold : XFontStyleEx.Regular, Options);
        }

        return font;
    }

    /// <summary>Gives a text as it is shown: white space as spaces; controls, what turns the reading direction, and what the font lacks as U+FFFD.</summary>
    public string Shown(string text)
    {
        var shown = new StringBuilder(text.Length);
        foreach (var rune in text.EnumerateRunes())
        {
            if (rune.Value is '\t' or '\n' or '\r')
            {
                shown.Append(' ');
            }
            else if (rune.Value is < 0x20 or (>= 0x7F and < 0xA0) or (>= 0x202A and <= 0x202E) or (>= 0x2066 and <= 0x2069) or 0xFFFD || !Coverage.Has(rune))
            {
                Lacking = true;
                shown.Append('\uFFFD');
            }
            else
            {
                shown.Append(rune.ToString());
            }
        }

        return shown.ToString();
    }

    private static FontCoverage Begin()
    {
        GlobalFontSettings.FontResolver ??= new PdfFontResolver();
        return new(PdfFontResolver.Read(bold: false));
    }
}
