namespace StrokeWatch.Measurement.Stroke;

/// <summary>Values of a sum of harmonics, by Horner's rule on the complex powers of its phase.</summary>
internal static class HarmonicValue
{
    /// <summary>Gives c₀ + Σ cₖ cos kφ + sₖ sin kφ.</summary>
    /// <param name="cosines">Coefficients c, index 0 the constant.</param>
    /// <param name="sines">Coefficients s, index 0 unused.</param>
    /// <param name="orders">Highest order.</param>
    /// <param name="cos">cos φ.</param>
    /// <param name="sin">sin φ.</param>
    public static double At(ReadOnlySpan<double> cosines, ReadOnlySpan<double> sines, int orders, double cos, double sin)
    {
        double re = 0, im = 0;
        for (var k = orders; k >= 1; k--)
        {
            var (a, b) = (re + cosines[k], im - sines[k]);
            (re, im) = (a * cos - b * sin, a * sin + b * cos);
        }

        return cosines[0] + re;
    }

    /// <summary>Gives the derivative by φ: Σ k(sₖ cos kφ − cₖ sin kφ).</summary>
    /// <param name="cosines">Coefficients c.</param>
    /// <param name="sines">Coefficients s.</param>
    /// <param name="orders">Highest order.</param>
    /// <param name="cos">cos φ.</param>
    /// <param name="sin">sin φ.</param>
    public static double SlopeAt(ReadOnlySpan<double> cosines, ReadOnlySpan<double> sines, int orders, double cos, double sin)
    {
        double re = 0, im = 0;
        for (var k = orders; k >= 1; k--)
        {
            var (a, b) = (re + k * sines[k], im + k * cosines[k]);
            (re, im) = (a * cos - b * sin, a * sin + b * cos);
        }

        return re;
    }
}
