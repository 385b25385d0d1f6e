using StrokeWatch.Measurement.Stroke;

namespace StrokeWatch.Assessment.Reports;

/// <summary>Medians over windows and how well they are known.</summary>
internal static class WindowStatistics
{
    /// <summary>Gives the median of some values; null where there is none. NaN does not count.</summary>
    public static double? Median(IEnumerable<double> values)
    {
        var sorted = values.Where(value => !double.IsNaN(value)).Order().ToArray();
        return sorted.Length == 0 ? null : 0.5 * (sorted[(sorted.Length - 1) / 2] + sorted[sorted.Length / 2]);
    }

    /// <summary>Gives the standard deviation; 0 where there is one value.</summary>
    public static double Scatter(IReadOnlyList<double> values)
    {
        if (values.Count < 2)
        {
            return 0;
        }

        var mean = values.Average();
        return Math.Sqrt(values.Sum(value => (value - mean) * (value - mean)) / (values.Count - 1));
    }

    /// <summary>Gives the standard uncertainty of the median of some values, each with its own noise.</summary>
    public static double Uncertainty(IReadOnlyList<double> values, IEnumerable<double> noises) =>
        StrokeBudget.OfMedian(Median(noises) ?? 0, Scatter(values), Math.Max(1, values.Count));
}
