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

    /// <summary>A step departs from the median step by more than this share of it; one in so many must, or there is no order to look for.</summary>
    private const double Departs = 0.3;
    private const int Rare = 20;

    /// <summary>Two steps are the same within this share.</summary>
    private const double Same = 0.1;

    /// <summary>Finds the shortest period over which four fifths of the spans are alike; lost samples and single late stamps keep it from few.</summary>
    /// <param name="times">The times in seconds.</param>
    /// <param name="resolution">The rounding of the times in seconds.</param>
    public static StepPattern Find(ReadOnlySpan<double> times, double resolution)
    {
        times = times[..Math.Min(times.Length, MostRows)];
        var spans = new double[times.Length];
        var departing = Departing(times, resolution);
        for (var period = 1; period <= MostPeriod && times.Length >= 4 * (period + 1); period++)
        {
            var (median, shortest) = (Median(times, 0, period, 1, spans), double.PositiveInfinity);
            var longest = 0.0;
            for (var phase = 0; phase < period && period > 1; phase++)
            {
                var step = Median(times, phase, 1, period, spans);
                (shortest, longest) = (Math.Min(shortest, step), Math.Max(longest, step));
            }

            if (!Alike(times, period, median, 0.5 * median / period + resolution))
            {
                continue;
            }

            // A burst's pauses are few: most steps are alike, and yet the others come again and again in their turn, as lost samples do not.
            if (departing.Length * Rare < times.Length)
            {
                return default;
            }

            if (Again(times, departing, period, resolution) is { } again)
            {
                return period > 1 && shortest >= 0 ? new(period, shortest, Math.Max(longest, again)) : default;
            }
        }

        return default;
    }

    /// <summary>Says whether most steps are about the same.</summary>
    /// <param name="times">The times in seconds.</param>
    /// <param name="resolution">The rounding of the times in seconds.</param>
    public static bool MostlyAlike(ReadOnlySpan<double> times, double resolution)
    {
        times = times[..Math.Min(times.Length, MostRows)];
        var median = Median(times, 0, 1, 1, new double[times.Length]);
        var alike = 0;
        for (var i = 0; i < times.Length - 1; i++)
        {
            alike += Math.Abs(times[i + 1] - times[i] - median) <= (Same * median) + resolution ? 1 : 0;
        }

        return 2 * alike >= times.Length - 1;
    }

    /// <summary>Gives the places of the steps that are not like the median step.</summary>
    private static int[] Departing(ReadOnlySpan<double> times, double resolution)
    {
        var median = times.Length < 2 ? 0 : Median(times, 0, 1, 1, new double[times.Length]);
        var found = new List<int>();
        for (var i = 0; i < times.Length - 1; i++)
        {
            if (Math.Abs(times[i + 1] - times[i] - median) > (Departs * median) + resolution)
            {
                found.Add(i);
            }
        }

        return [.. found];
    }

    /// <summary>Gives the longest departing step that comes again a period later (but for the last twentieth, which may be gaps); null where fewer than four fifths do.</summary>
    private static double? Again(ReadOnlySpan<double> times, int[] departing, int period, double resolution)
    {
        var (seen, again) = (0, new List<double>());
        foreach (var i in departing)
        {
            if (i + period + 1 < times.Length)
            {
                var step = times[i + 1] - times[i];
                seen++;
                if (Math.Abs(times[i + period + 1] - times[i + period] - step) <= (Same * Math.Abs(step)) + resolution)
                {
                    again.Add(step);
                }
            }
        }

        again.Sort();
        return again.Count > 0 && again.Count >= Kept * seen ? again[(int)(0.95 * (again.Count - 1))] : null;
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
