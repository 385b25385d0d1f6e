namespace StrokeWatch.Assessment.Trends;

/// <summary>A two-sided CUSUM chart by its in-control run length.</summary>
/// <param name="Allowance">k, in standard deviations of a reading.</param>
/// <param name="Decision">h, in standard deviations of a reading.</param>
/// <param name="HeadStart">What both sums begin at.</param>
/// <param name="RunLength">Average number of readings to a false signal.</param>
/// <param name="Limit">The soft limit of a reading.</param>
public sealed record CusumDesign(double Allowance, double Decision, double HeadStart, double RunLength, double Limit)
{
    private const double MostDecision = 400;

    /// <summary>Designs the chart that finds a shift soonest among those with an in-control run length: k is half the shift as limited, h is solved for.</summary>
    /// <param name="runLength">Average number of readings to a false signal, above 1.</param>
    /// <param name="shift">The shift to be found, in standard deviations, above 0.</param>
    /// <param name="limit">The soft limit of a reading; infinite for none.</param>
    /// <param name="fastInitialResponse">Whether the sums begin at half of h.</param>
    public static CusumDesign For(double runLength, double shift, double limit = double.PositiveInfinity, bool fastInitialResponse = false)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(shift);
        var allowance = SoftLimit.Of(shift, limit) / 2;
        var law = new IncrementLaw(0, 1, limit);
        var guess = Math.Max(0.2, Math.Log(1 + 4 * allowance * allowance * runLength) / (2 * allowance) - 1.166);
        var decision = RunLengthRoot.Solve(runLength, guess, MostDecision, reach => CusumRunLength.TwoSided(allowance, reach, law, fastInitialResponse ? reach / 2 : 0));
        return new(allowance, decision, fastInitialResponse ? decision / 2 : 0, runLength, limit);
    }

    /// <summary>Gives the average number of readings to the signal at a shift.</summary>
    public double RunLengthAt(double shift) => CusumRunLength.TwoSided(Allowance, Decision, new(shift, 1, Limit), HeadStart);
}
