namespace StrokeWatch.Reports.Pdf;

/// <summary>A size of paper, upright, in points of 1/72 inch.</summary>
/// <param name="Name">Its name on the command line.</param>
/// <param name="Width">Width in points.</param>
/// <param name="Height">Height in points.</param>
internal sealed record PdfPaper(string Name, double Width, double Height)
{
    /// <summary>A4: 210 mm by 297 mm (ISO 216, from memory).</summary>
    public static readonly PdfPaper A4 = new("a4", 210 * 72 / 25.4, 297 * 72 / 25.4);

    /// <summary>Letter: 8.5 in by 11 in (ANSI/ASME Y14.1, from memory).</summary>
    public static readonly PdfPaper Letter = new("letter", 612, 792);
}
