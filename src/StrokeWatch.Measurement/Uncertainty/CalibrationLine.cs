namespace StrokeWatch.Measurement.Uncertainty;

/// <summary>A straight line y = y₁ + y₂(x − x₀) fitted by least squares, with its uncertainty. Source: JCGM 100:2008 (GUM), H.3.</summary>
public sealed class CalibrationLine
{
    private CalibrationLine(double reference)
    {
        Reference = reference;
    }

    /// <summary>Gets x₀.</summary>
    public double Reference { get; }

    /// <summary>Gets y₁, the value at x₀.</summary>
    public double Intercept { get; private init; }

    /// <summary>Gets y₂.</summary>
    public double Slope { get; private init; }

    /// <summary>Gets the standard uncertainty of y₁.</summary>
    public double InterceptUncertainty { get; private init; }

    /// <summary>Gets the standard uncertainty of y₂.</summary>
    public double SlopeUncertainty { get; private init; }

    /// <summary>Gets the correlation of y₁ and y₂.</summary>
    public double Correlation { get; private init; }

    /// <summary>Gets the standard deviation of the residuals.</summary>
    public double ResidualDeviation { get; private init; }

    /// <summary>Gets the degrees of freedom, two fewer than the points.</summary>
    public int DegreesOfFreedom { get; private init; }

    /// <summary>Fits a line to three points or more, at two places or more.</summary>
    public static CalibrationLine Fit(ReadOnlySpan<double> x, ReadOnlySpan<double> y, double reference)
    {
        ArgumentOutOfRangeException.ThrowIfNotEqual(y.Length, x.Length, nameof(y));
        ArgumentOutOfRangeException.ThrowIfLessThan(x.Length, 3, nameof(x));
        var count = x.Length;
        double meanX = 0, meanY = 0;
        for (var n = 0; n < count; n++)
        {
            meanX += x[n] / count;
            meanY += y[n] / count;
        }

        // About the mean the two parameters are uncorrelated, and no digits are lost.
        double xx = 0, xy = 0;
        for (var n = 0; n < count; n++)
        {
            xx += (x[n] - meanX) * (x[n] - meanX);
            xy += (x[n] - meanX) * (y[n] - meanY);
        }

        if (!(xx > 0))
        {
            throw new ArgumentException("A line needs points at two places at least.", nameof(x));
        }

        var slope = xy / xx;
        var squares = 0.0;
        for (var n = 0; n < count; n++)
        {
            var residual = y[n] - meanY - slope * (x[n] - meanX);
            squares += residual * residual;
        }

        var deviation = Math.Sqrt(squares / (count - 2));
        var away = reference - meanX;
        var atReference = Math.Sqrt(1.0 / count + away * away / xx);
        return new(reference)
        {
            Intercept = meanY + slope * away,
            Slope = slope,
            InterceptUncertainty = deviation * atReference,
            SlopeUncertainty = deviation / Math.Sqrt(xx),
            Correlation = away / (Math.Sqrt(xx) * atReference),
            ResidualDeviation = deviation,
            DegreesOfFreedom = count - 2,
        };
    }

    /// <summary>Gives the line's value at a place.</summary>
    public double At(double x) => Intercept + Slope * (x - Reference);

    /// <summary>Gives the standard uncertainty of the line's value at a place.</summary>
    public double UncertaintyAt(double x) => new UncertaintyBudget(
        [new("intercept", InterceptUncertainty), new("slope", SlopeUncertainty, x - Reference)], [new(0, 1, Correlation)]).Combined;
}
