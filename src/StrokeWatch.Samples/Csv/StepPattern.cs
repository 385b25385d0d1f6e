namespace StrokeWatch.Samples.Csv;

/// <summary>Unequal steps of time that take turns; all zero where the steps are alike or follow no order.</summary>
/// <param name="Period">Steps after which the pattern repeats.</param>
/// <param name="Shortest">The shortest of them in seconds.</param>
/// <param name="Longest">The longest of them in seconds.</param>
internal readonly record struct StepPattern(int Period, double Shortest, double Longest)
{
    private const int MostPeriod = 64;
    private const int MostRows = 4096;
    private const double Kept = 0.8;

    /// <summary>Finds the shortest period over which four fifths of the spans are alike; lost samples and single late stamps keep it from few.</summary>
    /// <param name="times">The times in seconds.</param>
    /// <param name="resolution">The rounding of the times in seconds.</param>
    public static StepPattern Find(ReadOnlySpan<double> times, double resolution)
    {
        times = times[..Math.Min(times.Length, MostRows)];
        var spans = new double[times.Length];
        for (var period = 1; period <= MostPeriod && times.Length >= 4 * (period + 1); period++)
        {
            var (median, shortest) = (Median(times, 0, period, 1, spans), double.PositiveInfinity);
            var longest = 0.0;
            for (var phase = 0; phase < period && period > 1; phase++)
            {
                var step = Median(times, phase, 1, period, spans);
                (shortest, longest) = (Math.Min(shortest, step), Math.Max(longest, step));
            }

            if (Alike(times, period, median, 0.5 * median / period + resolution))
            {
                return period > 1 && shortest >= 0 ? new(period, shortest, longest) : default;
            }
        }

        return default;
    }

    private static double Median(ReadOnlySpan<double> times, int first, int lag, int stride, double[] spans)
    {
        var count = 0;
        for (var i = first; i < times.Length - lag; i += stride)
        {
            spans[count++] = times[i + lag] - times[i];
        }

        Array.Sort(spans, 0, count);
        return spans[count / 2];
    }

    private static bool Alike(ReadOnlySpan<double> times, int lag, double span, double tolerance)
    {
        var alike = 0;
        for (var i = 0; i < times.Length - lag; i++)
        {
            alike += Math.Abs(times[i + lag] - times[i] - span) <= tolerance ? 1 : 0;
        }

        return alike >= Kept * (times.Length - lag);
    }
}
