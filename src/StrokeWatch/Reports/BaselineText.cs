using System.Globalization;
using StrokeWatch.Assessment.Baselines;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Reports;

/// <summary>A baseline in words and numbers for people.</summary>
internal static class BaselineText
{
    /// <summary>Writes one version with all its features.</summary>
    public static void Write(TextWriter output, Baseline baseline)
    {
        output.WriteLine(Title(baseline));
        foreach (var feature in baseline.Features)
        {
            output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  {feature.Name,-24}{Number(feature.Mean),12}  spread {Number(feature.Spread),-10}{Inches(feature)}{Known(feature)}"));
        }
    }

    /// <summary>Gives the version, how and when it was made, and why.</summary>
    public static string Title(Baseline baseline) => string.Create(
        CultureInfo.InvariantCulture,
        $"version {baseline.Version}: {(baseline.Origin == BaselineOrigin.Learned ? "learned" : "told")}, made {baseline.Made:yyyy-MM-dd HH:mm}, {baseline.Features.Count} features{(baseline.Note is { } note ? $" ({note})" : "")}");

    private static string Inches(BaselineFeature feature) => feature.Name.EndsWith("_mm", StringComparison.Ordinal)
        ? string.Create(CultureInfo.InvariantCulture, $" ({Length.FromMillimetres(feature.Mean).Inches:0.0000} in, spread {Length.FromMillimetres(feature.Spread).Inches:0.0000} in)")
        : "";

    private static string Known(BaselineFeature feature) => feature.Count is { } count
        ? string.Create(CultureInfo.InvariantCulture, $" from {count} readings, {feature.From:yyyy-MM-dd} to {feature.To:yyyy-MM-dd}{(feature.SetAside > 0 ? $", {feature.SetAside} set aside as wild" : "")}")
        : "";

    private static string Number(double value) => value.ToString("0.######", CultureInfo.InvariantCulture);
}
