using StrokeWatch.Pipeline;

namespace StrokeWatch.Reports.Html;

/// <summary>The uncertainty budget of a capture's stroke as rows: the one place where the page's table gets them.</summary>
internal static class Budget
{
    /// <summary>Gives the rows; none where no stroke was measured. Their root sum of squares is half the expanded uncertainty that the report states.</summary>
    public static IReadOnlyList<BudgetRow> Of(ReplayResult result)
    {
        if (result.Report.Stroke is not { Stroke: { } stroke and > 0, Uncertainty: { } expanded })
        {
            return [];
        }

        var parts = result.Contributions;
        var whole = 0.5 * expanded / stroke;
        var random = Math.Sqrt(Math.Max(0, whole * whole - parts.Combined * parts.Combined));
        var free = result.Report.Feeder.Drive.Free;
        return
        [
            new(ReportWords.Sensitivity, parts.Sensitivity, parts.SensitivityAssumed, ReportWords.SensitivityBasis(result.Report.Feeder.Sensor)),
            new(ReportWords.Frequency, parts.Frequency, true, free ? ReportWords.FreeFrequencyBasis : ReportWords.MainsFrequencyBasis),
            new(ReportWords.Alignment, parts.Alignment, true, ReportWords.AlignmentBasis),
            new(ReportWords.Readings, random, false, ReportWords.ReadingsBasis),
        ];
    }
}
