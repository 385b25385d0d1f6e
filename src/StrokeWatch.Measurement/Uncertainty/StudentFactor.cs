using MathNet.Numerics.Distributions;

namespace StrokeWatch.Measurement.Uncertainty;

/// <summary>The t-factors of expanded uncertainties. Source: JCGM 100:2008 (GUM), annex G.</summary>
public static class StudentFactor
{
    /// <summary>Gives k such that ±k standard uncertainties cover a share of the results; the degrees of freedom are cut down to a whole number (GUM G.4.1, note 1).</summary>
    /// <param name="coverage">Above 0, below 1.</param>
    /// <param name="degreesOfFreedom">Above 0; infinite gives the normal distribution's factor.</param>
    public static double For(double coverage, double degreesOfFreedom)
    {
        if (!(coverage > 0 && coverage < 1))
        {
            throw new ArgumentOutOfRangeException(nameof(coverage), coverage, "A coverage lies above 0 and below 1.");
        }

        var upper = 0.5 * (1 + coverage);
        return double.IsPositiveInfinity(degreesOfFreedom)
            ? Normal.InvCDF(0, 1, upper)
            : StudentT.InvCDF(0, 1, Whole(degreesOfFreedom), upper);
    }

    /// <summary>Gives the share of the results that ±k standard uncertainties cover.</summary>
    public static double Coverage(double coverageFactor, double degreesOfFreedom)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(coverageFactor);
        var upper = double.IsPositiveInfinity(degreesOfFreedom)
            ? Normal.CDF(0, 1, coverageFactor)
            : StudentT.CDF(0, 1, Whole(degreesOfFreedom), coverageFactor);
        return 2 * upper - 1;
    }

    private static double Whole(double degreesOfFreedom) => degreesOfFreedom > 0
        ? Math.Max(1, Math.Floor(degreesOfFreedom))
        : throw new ArgumentOutOfRangeException(nameof(degreesOfFreedom), degreesOfFreedom, "Degrees of freedom are above 0.");
}
