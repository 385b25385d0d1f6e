namespace StrokeWatch.Measurement.Uncertainty;

/// <summary>Carries the covariance of estimates over to several results at once. Source: JCGM 100:2008 (GUM), equation 13 and H.2.3; JCGM 102.</summary>
public static class Propagation
{
    /// <summary>Gives the covariance of the results, C·U·Cᵀ.</summary>
    /// <param name="sensitivities">One row a result, one column an estimate.</param>
    /// <param name="estimates">Covariance of the estimates.</param>
    public static double[,] Covariance(double[,] sensitivities, double[,] estimates)
    {
        var (results, inputs) = (sensitivities.GetLength(0), sensitivities.GetLength(1));
        if (estimates.GetLength(0) != inputs || estimates.GetLength(1) != inputs)
        {
            throw new ArgumentException("The covariance has one row and one column for each estimate.", nameof(estimates));
        }

        var covariance = new double[results, results];
        for (var i = 0; i < results; i++)
        {
            for (var j = 0; j < results; j++)
            {
                for (var a = 0; a < inputs; a++)
                {
                    for (var b = 0; b < inputs; b++)
                    {
                        covariance[i, j] += sensitivities[i, a] * estimates[a, b] * sensitivities[j, b];
                    }
                }
            }
        }

        return covariance;
    }

    /// <summary>Gives the standard uncertainty of each quantity of a covariance.</summary>
    public static double[] StandardUncertainties(double[,] covariance) =>
        [.. Enumerable.Range(0, covariance.GetLength(0)).Select(i => Math.Sqrt(covariance[i, i]))];

    /// <summary>Gives the correlation coefficient of two quantities of a covariance.</summary>
    public static double Correlation(double[,] covariance, int first, int second) =>
        covariance[first, second] / Math.Sqrt(covariance[first, first] * covariance[second, second]);
}
