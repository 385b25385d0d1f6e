using PdfSharp.Drawing;
using PdfSharp.Pdf;
using StrokeWatch.Reports.Html;
using StrokeWatch.Reports.Records;

namespace StrokeWatch.Reports.Pdf;

/// <summary>Writes a record as a PDF document: searchable text, drawings as vectors, the font embedded.</summary>
internal static class RecordPdf
{
    private const double Body = 9, Small = 8, Heading = 12.5, Inner = 9.5, Title = 20, ListIndent = 18;

    /// <summary>Gives the document's bytes; the same record gives the same.</summary>
    public static byte[] Write(RecordDocument record, PdfPaper paper)
    {
        using var document = new PdfDocument();
        document.Info.Title = record.Title;
        document.Info.Author = record.Who ?? "";
        document.Info.Subject = "Machine record of a vibratory feeder";
        document.Info.Creator = "StrokeWatch";
        document.Info.CreationDate = record.Made.UtcDateTime;
        document.Info.ModificationDate = record.Made.UtcDateTime;
        document.Language = "en";
        var fonts = new PdfFonts();
        using var flow = new PdfFlow(document, fonts, paper);
        flow.Paragraph(record.Feeder, Title, true, PdfLooks.Ink, after: 1);
        flow.Paragraph(record.About, Body, false, PdfLooks.Soft, after: 8);
        PdfReading.Write(flow, record.Reading);
        foreach (var section in record.Sections)
        {
            Section(document, flow, section);
        }

        if (fonts.Lacking)
        {
            flow.Paragraph("Characters shown as \uFFFD are not in this document's font; the page (HTML) shows them.", Small, false, PdfLooks.Soft);
        }

        flow.Finish($"{record.Feeder}, machine record of {RecordDates.Short(record.Made)}");
        using var stream = new MemoryStream();
        document.Save(stream);
        return PdfIdentity.Fix(stream.ToArray());
    }

    private static void Section(PdfDocument document, PdfFlow flow, RecordSection section)
    {
        const double Before = 12, Leading = 1.32 * Heading + 4;
        flow.Y += flow.AtTop ? 0 : Before;
        flow.Need(Leading + section.Blocks.Take(section.Blocks is [RecordText, RecordPicture, ..] ? 2 : 1).Sum(block => Beginning(flow, block)));
        document.Outlines.Add(section.Heading, flow.Page, true);
        flow.Paragraph(section.Heading, Heading, true, PdfLooks.Ink, after: 4);
        for (var i = 0; i < section.Blocks.Count; i++)
        {
            if (section.Blocks[i] is RecordText { Kind: RecordTextKind.Heading } && i + 1 < section.Blocks.Count)
            {
                flow.Need(Beginning(flow, section.Blocks[i]) + Beginning(flow, section.Blocks[i + 1]));
            }

            Block(flow, section.Blocks[i]);
        }
    }

    /// <summary>Gives the height that must follow a heading on its page.</summary>
    private static double Beginning(PdfFlow flow, RecordBlock block)
    {
        switch (block)
        {
            case RecordTable table:
                return new PdfTable(flow, table).Beginning;
            case RecordPicture picture:
                var size = new DrawingSize();
                picture.Draw(size);
                return size.Tall * flow.Width + 2 * PdfFlow.Leading(Small);
            default:
                return 2 * PdfFlow.Leading(Body);
        }
    }

    private static void Block(PdfFlow flow, RecordBlock block)
    {
        switch (block)
        {
            case RecordText { Kind: RecordTextKind.Heading } text:
                flow.Y += 3;
                flow.Paragraph(text.Words, Inner, true, PdfLooks.Ink, after: 2);
                break;
            case RecordText { Kind: RecordTextKind.Caution } text:
                Caution(flow, text.Words);
                break;
            case RecordText { Kind: RecordTextKind.Detail } text:
                flow.Paragraph(text.Words, Small, false, PdfLooks.Soft);
                break;
            case RecordText text:
                flow.Paragraph(text.Words, Body, false, PdfLooks.Ink);
                break;
            case RecordFacts facts:
                PdfFacts.Write(flow, facts);
                break;
            case RecordTable table:
                new PdfTable(flow, table).Write();
                break;
            case RecordList list:
                foreach (var (index, item) in list.Items.Index())
                {
                    flow.Need(Math.Min(3, PdfLines.Wrap(flow, item, flow.Fonts.Of(Body), flow.Width - ListIndent).Count) * PdfFlow.Leading(Body));
                    flow.Line($"{Figure.Count(index + 1)}.", flow.Fonts.Of(Body), PdfLooks.Ink, PdfFlow.Margin, flow.Y);
                    flow.Paragraph(item, Body, false, PdfLooks.Ink, indent: ListIndent, after: 2);
                }

                flow.Y += 3;
                break;
            case RecordPicture picture:
                flow.Need(Beginning(flow, picture));
                picture.Draw(new PdfPainter(flow));
                flow.Y += 3;
                flow.Paragraph(picture.Caption, Small, false, PdfLooks.Soft, after: 6);
                break;
            case RecordSignature signature:
                PdfFacts.Sign(flow, signature);
                break;
            default:
                throw new InvalidOperationException($"A PDF document cannot hold a {block.GetType().Name}.");
        }
    }

    private static void Caution(PdfFlow flow, string words)
    {
        const double Inset = 7;
        var font = flow.Fonts.Of(Body);
        var lines = PdfLines.Wrap(flow, words, font, flow.Width - 2 * Inset);
        var height = lines.Count * PdfFlow.Leading(Body) + 2 * Inset;
        flow.Need(height);
        flow.Graphics.DrawRectangle(new XPen(PdfLooks.Ink, 1.2), PdfFlow.Margin, flow.Y, flow.Width, height);
        foreach (var (index, line) in lines.Index())
        {
            flow.Line(line, font, PdfLooks.Ink, PdfFlow.Margin + Inset, flow.Y + Inset + index * PdfFlow.Leading(Body));
        }

        flow.Y += height + 6;
    }
}
