namespace StrokeWatch.Measurement.Impacts;

/// <summary>How a window's cycles differ in loudness.</summary>
internal static class CycleLoudness
{
    /// <summary>Sets spread over mean, skewness, and correlation with one, two and three cycles before.</summary>
    public static void Work(ReadOnlySpan<double> norms, Span<double> into)
    {
        double sum = 0, squares = 0, cubes = 0;
        foreach (var norm in norms)
        {
            sum += norm;
        }

        var middle = sum / norms.Length;
        foreach (var norm in norms)
        {
            var d = norm - middle;
            (squares, cubes) = (squares + (d * d), cubes + (d * d * d));
        }

        squares = Math.Max(squares / norms.Length, 1e-300);
        into[0] = Math.Sqrt(squares) / Math.Max(middle, 1e-300);
        into[1] = cubes / norms.Length / Math.Pow(squares, 1.5);
        for (var lag = 1; lag <= 3; lag++)
        {
            var products = 0.0;
            for (var m = lag; m < norms.Length; m++)
            {
                products += (norms[m] - middle) * (norms[m - lag] - middle);
            }

            into[1 + lag] = products / (norms.Length - lag) / squares;
        }
    }
}
