using System.Security.Cryptography;
using System.Text;

namespace StrokeWatch.Reports.Html;

/// <summary>The report of one or several replays as one self-contained page: no script, nothing fetched, its only style the one whose hash it names.</summary>
internal static class ReportPage
{
    /// <summary>Gives the page; the same results give the same bytes.</summary>
    public static string Write(IReadOnlyList<ReportedCapture> captures)
    {
        var page = new Markup();
        page.Open("html", ("lang", "en"));
        Head(page, ReportWords.Title(captures));
        page.Open("body");
        Patterns(page);
        if (captures.Count > 1)
        {
            Contents(page, captures);
            HistorySection.Write(page, [.. captures.Select(capture => capture.Result)]);
        }

        for (var i = 0; i < captures.Count; i++)
        {
            CaptureSection.Write(page, captures[i], Anchor(i));
        }

        page.Leaf("footer", ReportWords.NoDate);
        page.Close();
        return page.Close().ToString();
    }

    private static string Policy(string sheet) =>
        $"default-src 'none'; style-src 'sha256-{Convert.ToBase64String(SHA256.HashData(Encoding.UTF8.GetBytes(sheet)))}'; base-uri 'none'; form-action 'none'";

    private static string Anchor(int index) => $"capture-{Figure.Place(index + 1)}";

    /// <summary>Writes the head of a page under a title, with its one style sheet.</summary>
    internal static void Head(Markup page, string title, string sheet = PageStyle.Sheet)
    {
        page.Open("head");
        page.Empty("meta", ("charset", "utf-8"));
        page.Empty("meta", ("http-equiv", "Content-Security-Policy"), ("content", Policy(sheet)));
        page.Empty("meta", ("name", "viewport"), ("content", "width=device-width, initial-scale=1"));
        page.Empty("meta", ("name", "color-scheme"), ("content", "light dark"));
        page.Empty("meta", ("name", "referrer"), ("content", "no-referrer"));
        page.Leaf("title", title).Text("\n");
        page.Style(sheet);
        page.Close();
    }

    /// <summary>Draws the hatchings once; every drawing of the page fills with them.</summary>
    internal static void Patterns(Markup page)
    {
        page.Open("svg", ("class", "patterns"), ("width", "0"), ("height", "0"), ("aria-hidden", "true"));
        page.Open("defs");
        Pattern(page, "hatch-band", "7", "hatch-line");
        Pattern(page, "hatch-order", "4", "hatch-dark");
        Pattern(page, "hatch-alarm", "4", "hatch-dark");
        page.Close();
        page.Close();
    }

    private static void Pattern(Markup page, string id, string pitch, string look)
    {
        page.Open("pattern", ("id", id), ("width", pitch), ("height", pitch), ("patternUnits", "userSpaceOnUse"), ("patternTransform", "rotate(45)"));
        page.Empty("path", ("class", look), ("d", $"M0 0V{pitch}"));
        page.Close();
    }

    private static void Contents(Markup page, IReadOnlyList<ReportedCapture> captures)
    {
        page.Open("nav");
        page.Leaf("h2", ReportWords.Captures);
        var table = new PageTable(page, ReportWords.SummaryColumns);
        for (var i = 0; i < captures.Count; i++)
        {
            var result = captures[i].Result;
            var stroke = result.Report.Stroke;
            page.Open("tr");
            table.Link(result.File, $"#{Anchor(i)}");
            table.Cell(stroke is { Stroke: { } metres, Uncertainty: { } spread } ? $"{Figure.Both(metres)} ± {Figure.MillimetresUp(spread)} mm" : ReportWords.NoStroke);
            table.Cell(ReportWords.Of(stroke.Verdict));
            table.Cell(ReportWords.Of(result.Report.Strike));
            page.Close();
        }

        table.End();
        page.Close();
    }
}
