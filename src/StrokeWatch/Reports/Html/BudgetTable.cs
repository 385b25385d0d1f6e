using StrokeWatch.Pipeline;

namespace StrokeWatch.Reports.Html;

/// <summary>The uncertainty budget as a table.</summary>
internal static class BudgetTable
{
    private const double BarWidth = 100;

    /// <summary>Writes the table, or why there is none.</summary>
    public static void Write(Markup page, ReplayResult result)
    {
        var rows = Budget.Of(result);
        if (rows.Count == 0)
        {
            page.Leaf("p", ReportWords.NoBudget);
            return;
        }

        var stroke = result.Report.Stroke.Stroke!.Value;
        var squares = rows.Sum(row => row.Relative * row.Relative);
        var table = new PageTable(page, ReportWords.BudgetColumns);
        foreach (var row in rows)
        {
            page.Open("tr");
            table.Cell(row.Name);
            table.Cell($"{(row.Assumed ? ReportWords.Assumed : ReportWords.Known)}: {row.Basis}");
            table.Cell(Figure.Of(1e3 * row.Relative * stroke, 4));
            table.Cell(Figure.Of(100 * row.Relative, 3));
            table.Cell(() => Share(page, row.Relative * row.Relative / squares));
            page.Close();
        }

        Sum(table, page, ReportWords.Combined, Math.Sqrt(squares), stroke);
        Sum(table, page, ReportWords.Expanded, 2 * Math.Sqrt(squares), stroke);
        table.End();
    }

    private static void Sum(PageTable table, Markup page, string name, double relative, double stroke)
    {
        page.Open("tr", ("class", "sum"));
        table.Cell(name);
        table.Cell("");
        table.Cell(Figure.Of(1e3 * relative * stroke, 4));
        table.Cell(Figure.Of(100 * relative, 3));
        table.Cell("");
        page.Close();
    }

    private static void Share(Markup page, double share)
    {
        page.Leaf("span", $"{Figure.Of(100 * share, 1)} %");
        page.Open("svg", ("class", "share"), ("viewBox", $"0 0 {Figure.Place(BarWidth)} 8"), ("aria-hidden", "true"));
        page.Empty("path", ("class", "axis"), ("d", $"M0 8H{Figure.Place(BarWidth)}"));
        page.Empty("rect", ("class", "order"), ("width", Figure.Place(share * BarWidth)), ("height", "7"));
        page.Close();
    }
}
