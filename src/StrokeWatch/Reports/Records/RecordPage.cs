using StrokeWatch.Reports.Html;

namespace StrokeWatch.Reports.Records;

/// <summary>Writes a record as one self-contained page in the style of the other pages: no script, nothing fetched, made to be printed.</summary>
internal static class RecordPage
{
    /// <summary>Gives the page; the same record gives the same bytes.</summary>
    public static string Write(RecordDocument record)
    {
        var page = new Markup();
        page.Open("html", ("lang", "en"));
        ReportPage.Head(page, record.Title, RecordStyle.Sheet);
        page.Open("body");
        ReportPage.Patterns(page);
        page.Open("article");
        page.Open("header");
        page.Open("h1").Leaf("bdi", record.Feeder).Close();
        page.Open("p", ("class", "from")).Leaf("bdi", record.About).Close();
        Reading(page, record.Reading);
        page.Close();
        foreach (var section in record.Sections)
        {
            page.Open("section");
            page.Leaf("h2", section.Heading);
            foreach (var block in section.Blocks)
            {
                Block(page, block);
            }

            page.Close();
        }

        page.Close().Close();
        return page.Close().ToString();
    }

    private static void Block(Markup page, RecordBlock block)
    {
        switch (block)
        {
            case RecordText { Kind: RecordTextKind.Heading } text:
                page.Leaf("h3", text.Words);
                break;
            case RecordText text:
                page.Open("p", ("class", text.Kind switch { RecordTextKind.Detail => "detail", RecordTextKind.Caution => "caution", _ => "said" })).Leaf("bdi", text.Words).Close();
                break;
            case RecordFacts facts:
                page.Open("dl", ("class", "facts"));
                foreach (var (name, value) in facts.Rows)
                {
                    page.Open("div").Leaf("dt", name).Open("dd").Leaf("bdi", value).Close().Close();
                }

                page.Close();
                break;
            case RecordTable table:
                Table(page, table);
                break;
            case RecordList list:
                page.Open("ol");
                foreach (var item in list.Items)
                {
                    page.Leaf("li", item);
                }

                page.Close();
                break;
            case RecordPicture picture:
                page.Open("figure");
                picture.Draw(new SvgSurface(page));
                page.Leaf("figcaption", picture.Caption);
                page.Close();
                break;
            case RecordSignature signature:
                page.Open("div", ("class", "signature"));
                foreach (var (name, value) in signature.Lines)
                {
                    page.Open("div").Open("p", ("class", "hand")).Leaf("bdi", value).Close().Leaf("p", name, ("class", "name")).Close();
                }

                page.Close();
                break;
            default:
                throw new InvalidOperationException($"A page cannot hold a {block.GetType().Name}.");
        }
    }

    private static void Table(Markup page, RecordTable table)
    {
        var written = new PageTable(page, table.Columns);
        foreach (var (index, row) in table.Rows.Index())
        {
            page.Open("tr", index >= table.Rows.Count - table.Sums ? [("class", "sum")] : []);
            foreach (var cell in row)
            {
                written.Cell(cell);
            }

            page.Close();
        }

        written.End();
    }

    private static void Reading(Markup page, RecordReading reading)
    {
        page.Open("div", ("class", "reading"));
        page.Open("div", ("class", "figure"));
        page.Leaf("p", ReportWords.Stroke, ("class", "name"));
        page.Open("p", ("class", "big")).Leaf("b", reading.Stroke);
        if (reading.Inches.Length > 0)
        {
            page.Text(" ").Leaf("span", reading.Inches);
        }

        page.Close();
        if (reading.Spread.Length > 0)
        {
            page.Leaf("p", reading.Spread, ("class", "spread-words"));
        }

        page.Close();
        Judgement(page, ReportWords.Verdict, reading.Verdict, reading.Reason, reading.Kind);
        Judgement(page, ReportWords.Strike, reading.Strike, "", reading.StrikeFound ? "strike" : "quiet");
        page.Close();
    }

    private static void Judgement(Markup page, string name, string words, string reason, string kind)
    {
        page.Open("div", ("class", $"judgement {kind}"));
        page.Leaf("p", name, ("class", "name"));
        page.Leaf("p", words, ("class", "words"));
        if (reason.Length > 0)
        {
            page.Open("p", ("class", "reason")).Leaf("bdi", reason).Close();
        }

        page.Close();
    }
}
