using StrokeWatch.Reports.Records;

namespace StrokeWatch.Reports.Pdf;

/// <summary>Facts with their names beside them, and the lines to be signed.</summary>
internal static class PdfFacts
{
    private const double Size = 8.5, NameShare = 0.19, Pad = 2.5;

    /// <summary>Writes facts, a row each, no row cut by a page's end.</summary>
    public static void Write(PdfFlow flow, RecordFacts facts)
    {
        var (font, leading, nameWidth) = (flow.Fonts.Of(Size), PdfFlow.Leading(Size), NameShare * flow.Width);
        foreach (var (name, value) in facts.Rows)
        {
            var names = PdfLines.Wrap(flow, name, font, nameWidth - 8);
            var values = PdfLines.Wrap(flow, value, font, flow.Width - nameWidth);
            var height = Math.Max(names.Count, values.Count) * leading + 2 * Pad;
            flow.Need(height);
            foreach (var (index, line) in names.Index())
            {
                flow.Line(line, font, PdfLooks.Soft, PdfFlow.Margin, flow.Y + Pad + index * leading);
            }

            foreach (var (index, line) in values.Index())
            {
                flow.Line(line, font, PdfLooks.Ink, PdfFlow.Margin + nameWidth, flow.Y + Pad + index * leading);
            }

            flow.Y += height;
            flow.Rule(PdfFlow.Margin, PdfFlow.Margin + flow.Width, flow.Y, 0.5, PdfLooks.Line);
        }

        flow.Y += 6;
    }

    /// <summary>Draws the lines to be signed, side by side.</summary>
    public static void Sign(PdfFlow flow, RecordSignature signature)
    {
        const double Tall = 34, Gap = 18;
        flow.Need(Tall + 2 * PdfFlow.Leading(Size));
        flow.Y += Tall;
        var (font, width) = (flow.Fonts.Of(Size), (flow.Width - Gap * (signature.Lines.Count - 1)) / signature.Lines.Count);
        for (var i = 0; i < signature.Lines.Count; i++)
        {
            var x = PdfFlow.Margin + i * (width + Gap);
            flow.Line(PdfLines.Wrap(flow, signature.Lines[i].Value, font, width)[0], font, PdfLooks.Ink, x, flow.Y - PdfFlow.Leading(Size) - 1);
            flow.Rule(x, x + width, flow.Y, 0.8, PdfLooks.Ink);
            flow.Line(signature.Lines[i].Name, font, PdfLooks.Soft, x, flow.Y + 2);
        }

        flow.Y += PdfFlow.Leading(Size) + 8;
    }
}
