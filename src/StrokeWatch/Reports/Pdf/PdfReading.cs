using PdfSharp.Drawing;
using StrokeWatch.Reports.Html;
using StrokeWatch.Reports.Records;

namespace StrokeWatch.Reports.Pdf;

/// <summary>The reading at the head of the record: stroke, verdict and strike side by side.</summary>
internal static class PdfReading
{
    private const double Big = 26, Inches = 13, Name = 8, Words = 11, Gap = 16;

    /// <summary>Writes it between two lines.</summary>
    public static void Write(PdfFlow flow, RecordReading reading)
    {
        var first = 0.44 * flow.Width;
        var other = (flow.Width - first - 2 * Gap) / 2;
        var (left, middle, right) = (PdfFlow.Margin, PdfFlow.Margin + first + Gap, PdfFlow.Margin + first + 2 * Gap + other);
        flow.Rule(left, left + flow.Width, flow.Y, 1.5, PdfLooks.Ink);
        var top = flow.Y + 6;
        var stroke = flow.Fonts.Of(Big, true);
        flow.Line(ReportWords.Stroke, flow.Fonts.Of(Name), PdfLooks.Soft, left, top);
        flow.Line(reading.Stroke, stroke, PdfLooks.Ink, left, top + 11);
        if (reading.Inches.Length > 0)
        {
            flow.Line(reading.Inches, flow.Fonts.Of(Inches), PdfLooks.Soft, left + flow.Measure(reading.Stroke, stroke) + 8, top + 11 + 0.95 * (Big - Inches));
        }

        var bottom = Under(flow, reading.Spread, flow.Fonts.Of(Name + 0.5), left, top + 13 + 1.2 * Big, first);
        bottom = Math.Max(bottom, Column(flow, ReportWords.Verdict, reading.Verdict, reading.Reason, middle, top, other, reading.Kind != "in-band"));
        bottom = Math.Max(bottom, Column(flow, ReportWords.Strike, reading.Strike, "", right, top, other, reading.StrikeFound));
        flow.Y = bottom + 6;
        flow.Rule(left, left + flow.Width, flow.Y, 0.5, PdfLooks.Ink);
        flow.Y += 4;
    }

    private static double Column(PdfFlow flow, string name, string words, string reason, double x, double top, double width, bool bold)
    {
        flow.Line(name, flow.Fonts.Of(Name), PdfLooks.Soft, x, top);
        var bottom = Under(flow, words, flow.Fonts.Of(Words, bold), x, top + 13, width);
        return reason.Length == 0 ? bottom : Under(flow, reason, flow.Fonts.Of(Name + 0.5), x, bottom + 2, width);
    }

    private static double Under(PdfFlow flow, string words, XFont font, double x, double top, double width)
    {
        foreach (var line in PdfLines.Wrap(flow, words, font, width))
        {
            flow.Line(line, font, PdfLooks.Ink, x, top);
            top += PdfFlow.Leading(font.Size);
        }

        return top;
    }
}
