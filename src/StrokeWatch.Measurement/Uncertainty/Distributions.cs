namespace StrokeWatch.Measurement.Uncertainty;

/// <summary>The standard uncertainties of quantities of which only bounds or an expanded uncertainty are known. Source: JCGM 100:2008 (GUM), 4.3.</summary>
public static class Distributions
{
    /// <summary>Gives a/√3, for any value within ±a alike (GUM 4.3.7).</summary>
    public static double Rectangular(double halfWidth) => Checked(halfWidth) / Math.Sqrt(3);

    /// <summary>Gives a/√6, for values within ±a of which those near the middle are likelier (GUM 4.3.9).</summary>
    public static double Triangular(double halfWidth) => Checked(halfWidth) / Math.Sqrt(6);

    /// <summary>Gives a/√2, for the value of a sine of amplitude a at an unknown instant: the arcsine or U-shaped distribution (GUM H.1.3.4).</summary>
    public static double Arcsine(double amplitude) => Checked(amplitude) / Math.Sqrt(2);

    /// <summary>Gives U/k, for an expanded uncertainty stated with its coverage factor (GUM 4.3.3).</summary>
    public static double Normal(double expanded, double coverageFactor)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(coverageFactor);
        return Checked(expanded) / coverageFactor;
    }

    private static double Checked(double width) => double.IsFinite(width) && width >= 0
        ? width
        : throw new ArgumentOutOfRangeException(nameof(width), width, "A width is a finite number, 0 or more.");
}
