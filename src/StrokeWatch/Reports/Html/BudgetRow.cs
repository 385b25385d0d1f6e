namespace StrokeWatch.Reports.Html;

/// <summary>One contribution to the uncertainty of a stroke.</summary>
/// <param name="Name">What contributes.</param>
/// <param name="Relative">Its standard uncertainty (k = 1) relative to the stroke.</param>
/// <param name="Assumed">Whether it rests on an assumption, not on a measurement or a certificate.</param>
/// <param name="Basis">What it rests on.</param>
internal sealed record BudgetRow(string Name, double Relative, bool Assumed, string Basis);
