namespace StrokeWatch.Measurement.Uncertainty;

/// <summary>The means of quantities observed together again and again, and the covariance of those means. Source: JCGM 100:2008 (GUM), 4.2 and equation 17.</summary>
public sealed class RepeatedObservations
{
    private RepeatedObservations(double[] means, double[,] covariance, int degreesOfFreedom)
    {
        Means = means;
        Covariance = covariance;
        DegreesOfFreedom = degreesOfFreedom;
    }

    /// <summary>Gets the mean of each quantity.</summary>
    public IReadOnlyList<double> Means { get; }

    /// <summary>Gets the covariance of the means.</summary>
    public double[,] Covariance { get; }

    /// <summary>Gets the degrees of freedom of each variance, one fewer than the observations.</summary>
    public int DegreesOfFreedom { get; }

    /// <summary>Makes them from one series a quantity, all of the same length, two observations or more.</summary>
    public static RepeatedObservations Of(params double[][] series)
    {
        var count = series[0].Length;
        ArgumentOutOfRangeException.ThrowIfLessThan(count, 2, nameof(series));
        if (series.Any(one => one.Length != count))
        {
            throw new ArgumentException("Quantities observed together have as many observations each.", nameof(series));
        }

        var means = series.Select(one => one.Average()).ToArray();
        var covariance = new double[series.Length, series.Length];
        for (var i = 0; i < series.Length; i++)
        {
            for (var j = 0; j < series.Length; j++)
            {
                for (var n = 0; n < count; n++)
                {
                    covariance[i, j] += (series[i][n] - means[i]) * (series[j][n] - means[j]) / ((double)count * (count - 1));
                }
            }
        }

        return new(means, covariance, count - 1);
    }
}
