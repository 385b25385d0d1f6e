using StrokeWatch.Reports.Html;

namespace StrokeWatch.Reports.Sheets;

/// <summary>A sheet as one self-contained page in the style of the replay report: no script, nothing fetched.</summary>
internal static class SheetPage
{
    private const double Wide = 960;
    private const double Narrow = 420;

    /// <summary>Gives the page; the same sheet gives the same bytes.</summary>
    public static string Write(Sheet sheet)
    {
        var page = new Markup();
        page.Open("html", ("lang", "en"));
        ReportPage.Head(page, $"{sheet.Feeder}: {sheet.Title}");
        page.Open("body");
        ReportPage.Patterns(page);
        page.Open("article");
        page.Open("header");
        page.Open("h1").Leaf("bdi", sheet.Feeder).Close();
        page.Leaf("p", $"{sheet.Title}. Rests on {sheet.From}.", ("class", "from"));
        page.Close();
        page.Open("section").Open("figure");
        SheetDrawing.Draw(page, sheet.Plot, Wide, "wide");
        SheetDrawing.Draw(page, sheet.Plot, Narrow, "narrow");
        page.Leaf("figcaption", sheet.Plot.Says);
        page.Close();
        page.Open("dl");
        foreach (var fact in sheet.Facts)
        {
            page.Open("div").Leaf("dt", fact.Name).Open("dd").Leaf("bdi", fact.Words).Close().Close();
        }

        page.Close().Close();
        page.Open("section");
        page.Leaf("h2", "What it says, and how far it holds");
        foreach (var note in sheet.Notes)
        {
            page.Leaf("p", char.ToUpperInvariant(note[0]) + note[1..] + ".");
        }

        page.Leaf("p", ReportWords.Caution, ("class", "caution"));
        page.Close();
        foreach (var table in sheet.Tables)
        {
            page.Open("section");
            page.Leaf("h2", table.Title);
            var skip = table.HasWords ? 0 : 1;
            var written = new PageTable(page, [.. table.Columns.Skip(skip).Select(column => column.Name)]);
            foreach (var (words, numbers) in table.Rows)
            {
                written.Row([.. ((string[])[words, .. numbers.Select((number, i) => SheetText.Cell(number, table.Columns[i + 1].Digits))]).Skip(skip)]);
            }

            written.End();
            page.Close();
        }

        page.Close().Close();
        return page.Close().ToString();
    }
}
