namespace StrokeWatch.Machine.Tuning;

/// <summary>Quantiles of drawn values.</summary>
internal static class Quantiles
{
    /// <summary>Gives a quantile by interpolation between order statistics; the array is sorted in place.</summary>
    public static double Of(double[] values, double share)
    {
        Array.Sort(values);
        return OfSorted(values, share);
    }

    /// <summary>Gives a quantile of values that are sorted already.</summary>
    public static double OfSorted(double[] values, double share)
    {
        var at = share * (values.Length - 1);
        var low = (int)Math.Floor(at);
        var high = Math.Min(low + 1, values.Length - 1);
        return values[low] + ((at - low) * (values[high] - values[low]));
    }
}
