using StrokeWatch.Measurement.Stroke;
using StrokeWatch.Pipeline;

namespace StrokeWatch.Reports.Html;

/// <summary>The uncertainty budget as a table.</summary>
internal static class BudgetTable
{
    private const double BarWidth = 100;

    /// <summary>Writes the table, or why there is none.</summary>
    public static void Write(Markup page, ReplayResult result)
    {
        if (result.Report.Stroke is not { Stroke: { } stroke, Budget: { } budget })
        {
            page.Leaf("p", ReportWords.NoBudget);
            return;
        }

        var table = new PageTable(page, ReportWords.BudgetColumns);
        foreach (var component in budget.Components)
        {
            page.Open("tr");
            table.Cell(ReportWords.Contribution(component.Name));
            table.Cell(component.Basis);
            Size(table, component.Contribution, stroke);
            table.Cell(() => Share(page, budget.Share(component)));
            page.Close();
        }

        Sum(ReportWords.Combined, ReportWords.RootOfSquares, budget.Combined);
        Sum(ReportWords.Expanded, ReportWords.Covers(budget.Coverage(StrokeBudget.CoverageFactor)), StrokeBudget.CoverageFactor * budget.Combined);
        table.End();

        void Sum(string name, string words, double size)
        {
            page.Open("tr", ("class", "sum"));
            table.Cell(name);
            table.Cell(words);
            Size(table, size, stroke);
            table.Cell("");
            page.Close();
        }
    }

    private static void Size(PageTable table, double size, double stroke)
    {
        table.Cell(Figure.Of(1e3 * size, 4));
        table.Cell(Figure.Of(100 * size / stroke, 3));
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
