using System.Globalization;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Measurement.Stroke;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Reports;

/// <summary>Writes the uncertainty budget of a stroke as a table for a person.</summary>
internal static class BudgetText
{
    private const double UsualCoverage = 0.95;

    /// <summary>Writes the table, or why there is none.</summary>
    public static void Write(TextWriter writer, StrokeSummary stroke)
    {
        if (stroke is not { Stroke: { } measured, Budget: { } budget })
        {
            writer.WriteLine($"  budget     none: no stroke was measured{(stroke.Reason is null ? "" : $" ({stroke.Reason})")}");
            return;
        }

        void Line(FormattableString text) => writer.WriteLine(text.ToString(CultureInfo.InvariantCulture));
        Line($"  budget     of the stroke {Length.FromMetres(measured)}; standard uncertainties, k = 1");
        Line($"             {"contribution",-16}{"u, mm",10}{"u, in",11}{"u, %",10}{"ν",8}{"share, %",10}  known from");
        foreach (var component in budget.Components)
        {
            Line($"             {component.Name,-16}{Numbers(component.Contribution, measured)}{Freedom(component.DegreesOfFreedom),8}{100 * budget.Share(component),10:0.00}  {component.Basis}");
        }

        var freedom = budget.EffectiveDegreesOfFreedom ?? double.PositiveInfinity;
        Line($"             {"combined",-16}{Numbers(budget.Combined, measured)}{Freedom(freedom),8}{100,10:0.00}  root sum of squares; ν by Welch-Satterthwaite");
        Expanded(StrokeBudget.CoverageFactor, budget.Coverage(StrokeBudget.CoverageFactor), "as stated with the stroke");
        Expanded(budget.CoverageFactor(UsualCoverage), UsualCoverage, "by the t-distribution");

        void Expanded(double factor, double coverage, string how)
        {
            var expanded = factor * budget.Combined;
            Line($"             expanded, k = {factor:0.00}: {Length.FromMetres(expanded)}, {100 * expanded / measured:0.000} %, covers {100 * coverage:0.0} % ({how})");
        }
    }

    private static string Numbers(double uncertainty, double stroke) => string.Create(
        CultureInfo.InvariantCulture,
        $"{1e3 * uncertainty,10:0.000000}{uncertainty / Length.MetresPerInch,11:0.0000000}{100 * uncertainty / stroke,10:0.0000}");

    private static string Freedom(double degrees) =>
        degrees < 1e4 ? degrees.ToString("0.#", CultureInfo.InvariantCulture) : "∞";
}
