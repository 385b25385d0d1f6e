namespace StrokeWatch.Tests.Samples.Captures;

/// <summary>A least-squares fit of one sine of known frequency and a mean, by the normal equations (IEEE 1057, three parameters).</summary>
internal static class SineFit
{
    public static double Amplitude(ReadOnlySpan<double> values, double frequency, double rate)
    {
        var (cc, ss, cs, c1, s1, cy, sy, y1) = (0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0);
        double n = values.Length;
        for (var i = 0; i < values.Length; i++)
        {
            var (s, c) = Math.SinCos(2 * Math.PI * frequency * i / rate);
            cc += c * c;
            ss += s * s;
            cs += c * s;
            c1 += c;
            s1 += s;
            cy += c * values[i];
            sy += s * values[i];
            y1 += values[i];
        }

        // The mean is eliminated, then a two by two system is left.
        var (a, b, d) = (cc - (c1 * c1 / n), cs - (c1 * s1 / n), ss - (s1 * s1 / n));
        var (p, q) = (cy - (c1 * y1 / n), sy - (s1 * y1 / n));
        var determinant = (a * d) - (b * b);
        return Math.Sqrt(Math.Pow(((d * p) - (b * q)) / determinant, 2) + Math.Pow(((a * q) - (b * p)) / determinant, 2));
    }
}
