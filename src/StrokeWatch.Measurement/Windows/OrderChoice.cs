using StrokeWatch.Measurement.Stroke;

namespace StrokeWatch.Measurement.Windows;

/// <summary>
/// Chooses up to which order a window is fitted: every sixteenth window, and each that leaves more over than those before it, is fitted to all orders there are room for;
/// the windows between only as far as anything stood out of the noise.
/// </summary>
/// <remarks>
/// What noise alone makes of an order's power is exponential about its mean, so that one look at <c>m</c> powers finds an order too many with probability
/// <see cref="FalseOrder"/> where the threshold is ln(m / <see cref="FalseOrder"/>) means. An order below it is left in the residual and so in the stated uncertainty.
/// Pure, and without memory of more than the last look.
/// </remarks>
internal sealed class OrderChoice
{
    /// <summary>The orders that are always fitted: those that clipping, strike and the machine's condition are read from.</summary>
    internal const int Fewest = 12;

    /// <summary>Up to which share of the sampling rate there are orders where rates are low and few orders are left: nearer to half the rate than this a window cannot tell an order from what folds back.</summary>
    internal const double LowShare = 0.49;

    private const int Interval = 16;
    private const int Margin = 2;
    private const double FalseOrder = 1e-4;

    /// <summary>By how many of its own standard deviations a residual variance must have grown to be looked into.</summary>
    private const double Surprise = 4;

    private int chosen = int.MaxValue;
    private int sinceLook;
    private double variance;

    /// <summary>Gives up to which share of a sampling rate in Hz there are orders.</summary>
    public static double Share(double rateHz) => rateHz >= Impacts.StrikeDetector.LeastRateHz && Impacts.TailedForest.IsLow(rateHz) ? LowShare : WindowAnalysis.HighestShare;

    /// <summary>Gives the orders to fit, at most so many.</summary>
    public int Orders(int all) => ++sinceLook >= Interval ? all : Math.Min(all, chosen);

    /// <summary>Takes a fit; true where fewer than all orders were fitted and more is left over than the last look explains, so that all should be.</summary>
    /// <param name="fit">The fit.</param>
    /// <param name="all">All orders there are.</param>
    public bool Take(IWindowHarmonics fit, int all)
    {
        var freedom = fit.Axes * Math.Max(1.0, fit.Count - 2 * fit.Orders - 1);
        var left = Math.Max(0, fit.SquaredResiduals) / freedom;
        if (fit.Orders < all)
        {
            if (left > variance * (1 + Surprise * Math.Sqrt(2 / freedom)))
            {
                return true;
            }

            variance += (left - variance) / Interval;
            return false;
        }

        Look(fit, left, freedom);
        return false;
    }

    private void Look(IWindowHarmonics fit, double left, double freedom)
    {
        sinceLook = 0;
        var powers = Math.Max(1, fit.Axes * (fit.Orders - Fewest));
        var threshold = Math.Log(powers / FalseOrder) * 2 * fit.CoefficientShare * left;
        var highest = fit.Orders;
        while (highest > Fewest && Largest(fit, highest) <= threshold)
        {
            highest--;
        }

        chosen = highest > Fewest ? Math.Min(fit.Orders, highest + Margin) : Fewest;
        var unfitted = 0.0;
        for (var k = chosen + 1; k <= fit.Orders; k++)
        {
            for (var a = 0; a < fit.Axes; a++)
            {
                unfitted += Power(fit, a, k);
            }
        }

        // Half the count times its power is what an order takes with it into the residual.
        variance = (left * freedom + unfitted / fit.CoefficientShare) / (freedom + 2.0 * fit.Axes * Math.Max(0, fit.Orders - chosen));
    }

    private static double Largest(IWindowHarmonics fit, int order)
    {
        var largest = 0.0;
        for (var a = 0; a < fit.Axes; a++)
        {
            largest = Math.Max(largest, Power(fit, a, order));
        }

        return largest;
    }

    private static double Power(IWindowHarmonics fit, int axis, int order)
    {
        var (c, s) = (fit.Cosine(axis)[order], fit.Sine(axis)[order]);
        return c * c + s * s;
    }
}
