using StrokeWatch.Measurement.Features;

namespace StrokeWatch.Assessment.Reports;

/// <summary>Sums the levels of steady windows up.</summary>
internal static class LevelSummaryBuilder
{
    /// <summary>Gives medians and scatter; null where there is no window.</summary>
    public static LevelSummary? Of(IReadOnlyList<OrderLevels> windows)
    {
        if (windows.Count == 0 || windows.Any(window => !(window.Order(1) > 0)))
        {
            return null;
        }

        double Middle(Func<OrderLevels, double> value) => WindowStatistics.Median(windows.Select(value)) ?? 0;
        double Ratio(Func<OrderLevels, float> value) => Middle(window => value(window) / window.Order(1));
        var orders = Enumerable.Range(1, OrderLevels.Orders).ToList();
        var noise = Middle(window => window.Noise);
        return new()
        {
            Fundamental = Middle(window => window.Order(1)),
            Orders = [.. orders.Select(order => Ratio(window => window.Order(order)))],
            OrderScatter = [.. orders.Select(order => WindowStatistics.Scatter([.. windows.Select(window => (double)window.Order(order) / window.Order(1))]))],
            SecondPhaseDegrees = Degrees(Middle(window => window.SecondReal), Middle(window => window.SecondImaginary)),
            ThirdPhaseDegrees = Degrees(Middle(window => window.ThirdReal), Middle(window => window.ThirdImaginary)),
            Across = Ratio(window => window.Across),
            Half = Ratio(window => window.Half),
            Third = Ratio(window => window.Third),
            Slow = Middle(window => window.Slow),
            Noise = noise,
            NoiseCrest = noise > 0 ? windows.Max(window => window.Noise) / noise : 1,
        };
    }

    private static double Degrees(double real, double imaginary) => Math.Atan2(imaginary, real) * 180 / Math.PI;
}
