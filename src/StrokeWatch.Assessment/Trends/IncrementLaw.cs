using MathNet.Numerics;

namespace StrokeWatch.Assessment.Trends;

/// <summary>The law of what a control chart adds up: a normal reading in standard deviations, held within soft limits.</summary>
/// <param name="Mean">Mean of the reading in standard deviations: the shift; 0 in control.</param>
/// <param name="Deviation">Standard deviation of the reading; 1 where the chart knows it exactly.</param>
/// <param name="Limit">The soft limit; infinite where there is none.</param>
public readonly record struct IncrementLaw(double Mean, double Deviation = 1, double Limit = double.PositiveInfinity)
{
    /// <summary>Gives the probability density at a limited value.</summary>
    public double Density(double value)
    {
        var (reading, slope) = SoftLimit.Undo(value, Limit);
        if (double.IsInfinity(reading))
        {
            return 0;
        }

        var standard = (reading - Mean) / Deviation;
        return Math.Exp(-0.5 * standard * standard) * slope / (Deviation * Constants.Sqrt2Pi);
    }

    /// <summary>Gives the probability of a value below this one.</summary>
    public double Below(double value) => 0.5 * SpecialFunctions.Erfc(-(SoftLimit.Undo(value, Limit).Reading - Mean) / (Deviation * Constants.Sqrt2));

    /// <summary>Gives the law of the opposite values.</summary>
    public IncrementLaw Mirrored() => this with { Mean = -Mean };
}
