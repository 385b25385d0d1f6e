using PdfSharp.Fonts;

namespace StrokeWatch.Reports.Pdf;

/// <summary>Gives PDFsharp the one embedded family; no font of the machine is ever asked for.</summary>
internal sealed class PdfFontResolver : IFontResolver
{
    /// <summary>The family's name.</summary>
    public const string Family = "DejaVu Sans Condensed";

    private const string Regular = "record-regular.ttf";
    private const string Bold = "record-bold.ttf";

    /// <summary>Reads a face from the program.</summary>
    public static byte[] Read(bool bold)
    {
        using var stream = typeof(PdfFontResolver).Assembly.GetManifestResourceStream(bold ? Bold : Regular) ?? throw new InvalidOperationException("The font is not embedded.");
        var bytes = new byte[stream.Length];
        stream.ReadExactly(bytes);
        return bytes;
    }

    /// <inheritdoc/>
    public byte[] GetFont(string faceName) => Read(faceName == Bold);

    /// <inheritdoc/>
    public FontResolverInfo ResolveTypeface(string familyName, bool isBold, bool isItalic) => new(isBold ? Bold : Regular);
}
