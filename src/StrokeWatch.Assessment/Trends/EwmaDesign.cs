using MathNet.Numerics;

namespace StrokeWatch.Assessment.Trends;

/// <summary>A two-sided EWMA chart, with limits exact from the first reading, by its in-control run length.</summary>
/// <param name="Weight">λ, the share of the newest reading.</param>
/// <param name="Width">L, the limits in standard deviations of the average.</param>
/// <param name="RunLength">Average number of readings to a false signal.</param>
/// <param name="Limit">The soft limit of a reading.</param>
public sealed record EwmaDesign(double Weight, double Width, double RunLength, double Limit)
{
    private const double MostWidth = 10;
    private const double LeastWeight = 0.02;

    /// <summary>Designs the chart of a weight.</summary>
    /// <param name="runLength">Average number of readings to a false signal, above 1.</param>
    /// <param name="weight">λ, from 0.02 to 1: with less the chart needs more readings to forget its start than most features give.</param>
    /// <param name="limit">The soft limit of a reading; infinite for none.</param>
    public static EwmaDesign For(double runLength, double weight, double limit = double.PositiveInfinity)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(weight, LeastWeight);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(weight, 1);
        var width = RunLengthRoot.Solve(runLength, 2.5, MostWidth, edge => EwmaRunLength.ExactLimits(weight, edge, new(0, 1, limit)));
        return new(weight, width, runLength, limit);
    }

    /// <summary>Designs the chart that finds a shift soonest among those with an in-control run length: both λ and L are solved for.</summary>
    /// <remarks>λ is chosen with limits at their final width: a machine that changes has been watched for long, and exact limits flatter charts that change at their first reading.</remarks>
    /// <param name="runLength">Average number of readings to a false signal, above 1.</param>
    /// <param name="shift">The shift to be found, in standard deviations, above 0.</param>
    /// <param name="limit">The soft limit of a reading; infinite for none.</param>
    public static EwmaDesign ForShift(double runLength, double shift, double limit = double.PositiveInfinity)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(shift);
        double Delay(double logarithm)
        {
            var weight = Math.Exp(logarithm);
            var width = RunLengthRoot.Solve(runLength, 2.5, MostWidth, edge => EwmaRunLength.FixedLimits(weight, edge, new(0, 1, limit)));
            return EwmaRunLength.FixedLimits(weight, width, new(shift, 1, limit));
        }

        var ratio = Constants.GoldenRatio - 1;
        double low = Math.Log(LeastWeight), high = 0;
        var left = high - ratio * (high - low);
        var right = low + ratio * (high - low);
        double atLeft = Delay(left), atRight = Delay(right);

        // The delay is flat about its least: a weight within two per cent is as good as exact.
        while (high - low > 0.02)
        {
            if (atLeft < atRight)
            {
                (high, right, atRight) = (right, left, atLeft);
                left = high - ratio * (high - low);
                atLeft = Delay(left);
            }
            else
            {
                (low, left, atLeft) = (left, right, atRight);
                right = low + ratio * (high - low);
                atRight = Delay(right);
            }
        }

        return For(runLength, Math.Exp((low + high) / 2), limit);
    }

    /// <summary>Gives the average number of readings to the signal at a shift.</summary>
    public double RunLengthAt(double shift) => EwmaRunLength.ExactLimits(Weight, Width, new(shift, 1, Limit));
}
