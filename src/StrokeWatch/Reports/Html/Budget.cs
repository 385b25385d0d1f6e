using StrokeWatch.Pipeline;

namespace StrokeWatch.Reports.Html;

/// <summary>The uncertainty budget of a capture's stroke as rows: the one place where the page's table gets them.</summary>
internal static class Budget
{
    /// <summary>Gives the rows; none where no stroke was measured. Their root sum of squares is half the expanded uncertainty that the report states.</summary>
    public static IReadOnlyList<BudgetRow> Of(ReplayResult result) =>
        result.Report.Stroke is not { Stroke: { } stroke and > 0, Budget: { } budget }
            ? []
            : [.. budget.Components.Select(component => new BudgetRow(
                ReportWords.Contribution(component.Name),
                component.Contribution / stroke,
                component.Basis.Contains("no source", StringComparison.Ordinal) || component.Basis.Contains("assumed", StringComparison.Ordinal),
                component.Basis))];
}
