namespace StrokeWatch.Measurement.Supply;

/// <summary>A constant and a sine of known frequency through some values by least squares: y = c + a cos x + b sin x.</summary>
/// <param name="Constant">The constant c.</param>
/// <param name="Cosine">The coefficient a.</param>
/// <param name="Sine">The coefficient b.</param>
internal readonly record struct KnownSine(double Constant, double Cosine, double Sine)
{
    /// <summary>Gets the amplitude.</summary>
    public double Amplitude => Math.Sqrt(Cosine * Cosine + Sine * Sine);

    /// <summary>Gets the phase φ in radians of the same sine written as amplitude · sin(x + φ).</summary>
    public double Phase => Math.Atan2(Cosine, Sine);

    /// <summary>Fits the sine; null where the values do not tell it.</summary>
    /// <param name="values">The values.</param>
    /// <param name="cos">cos x of each.</param>
    /// <param name="sin">sin x of each.</param>
    public static KnownSine? Of(ReadOnlySpan<double> values, ReadOnlySpan<double> cos, ReadOnlySpan<double> sin)
    {
        double c = 0, s = 0, cc = 0, cs = 0, y = 0, yc = 0, ys = 0;
        for (var i = 0; i < values.Length; i++)
        {
            c += cos[i];
            s += sin[i];
            cc += cos[i] * cos[i];
            cs += cos[i] * sin[i];
            y += values[i];
            yc += values[i] * cos[i];
            ys += values[i] * sin[i];
        }

        // Normal equations with the means taken off: two by two, by Cramer's rule.
        double n = values.Length;
        var (dcc, dcs, dss) = (cc - c * c / n, cs - c * s / n, n - cc - s * s / n);
        var (dyc, dys) = (yc - y * c / n, ys - y * s / n);
        var determinant = dcc * dss - dcs * dcs;
        if (!(determinant > 1e-9 * n * n))
        {
            return null;
        }

        var (a, b) = ((dyc * dss - dys * dcs) / determinant, (dys * dcc - dyc * dcs) / determinant);
        return new((y - a * c - b * s) / n, a, b);
    }
}
