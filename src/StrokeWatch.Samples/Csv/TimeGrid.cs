namespace StrokeWatch.Samples.Csv;

/// <summary>The spacing of a time column as its first rows show it.</summary>
/// <param name="Step">Seconds from sample to sample.</param>
/// <param name="Resolution">Seconds to which the times are rounded; 0 where that is not seen.</param>
/// <param name="RowsPerTime">Rows that share a time, on the average.</param>
/// <param name="Jitter">Standard deviation of a time in seconds, as most steps show it; 0 where rounding hides it.</param>
/// <param name="Pattern">The steps that take turns, as where two rates interleave or a buffer is read in bursts.</param>
internal readonly record struct TimeGrid(double Step, double Resolution, double RowsPerTime, double Jitter, StepPattern Pattern)
{
    /// <summary>So many of the first rows are used.</summary>
    public const int MostRows = 1 << 16;

    /// <summary>The most rows that are looked ahead.</summary>
    public const int MostAhead = 4096;

    /// <summary>From so many rows a time on, sharing it is the rule and not a coincidence of two loggers.</summary>
    public const double SharedRows = 1.2;

    /// <summary>Over so many rows steps without order average out.</summary>
    private const int IrregularLag = 64;

    /// <summary>Gets whether rows come so unevenly that two may well share a time: two loggers merged.</summary>
    public bool IsUneven => Jitter > 0.25 * Step;

    /// <summary>Gets whether rounding alone can make two samples share a time: repeats are no duplicates then.</summary>
    public bool IsCoarse => Resolution > 0.5 * Step;

    /// <summary>Gets the longest step that needs no missing sample to explain it; times rounded to a grid step by whole cells of it.</summary>
    public double LongestStep => Math.Max(Math.Max(1.5 * Step, Pattern.Longest + 0.5 * Pattern.Shortest), IsCoarse ? (Math.Ceiling((Step / Resolution) - 1e-4) + 0.5) * Resolution : 0);

    /// <summary>Gets how many rows after a late one are looked at before it counts as a gap.</summary>
    public int Ahead => (int)Math.Clamp(4 * Math.Max(RowsPerTime, Resolution / Step), 32, MostAhead);

    /// <summary>Gets over how many rows the even spacing is followed.</summary>
    public double Memory => Math.Max(64, 8 * Math.Max(RowsPerTime, Resolution / Step));

    /// <summary>Finds the spacing; null where the times do not advance.</summary>
    /// <remarks>
    /// The median over a lag in which rounding is small is not shaken by gaps; doubling the lag and averaging the spans that agree then
    /// takes the rounding out (a median of single steps would stay wrong by up to half the rounding).
    /// </remarks>
    /// <param name="times">The times in seconds, empty cells left out.</param>
    /// <param name="place">The resolution of the text in seconds.</param>
    public static TimeGrid? Find(ReadOnlySpan<double> times, double place)
    {
        var forward = new double[Math.Max(times.Length - 1, 0)];
        int steps = 0, distinct = 1;
        for (var i = 1; i < times.Length; i++)
        {
            var step = times[i] - times[i - 1];
            if (step >= 0)
            {
                forward[steps++] = step;
            }

            distinct += step != 0 ? 1 : 0;
        }

        var moving = forward.AsSpan(0, steps).ToArray().Where(s => s > 0).ToArray();
        if (moving.Length == 0)
        {
            return null;
        }

        Array.Sort(moving);
        var rowsPerTime = (double)times.Length / distinct;
        var tick = rowsPerTime > SharedRows ? moving[moving.Length / 2] : 0;
        var resolution = Math.Max(tick, place);
        var rough = moving[moving.Length / 2] / rowsPerTime;
        var lag = (int)Math.Clamp(Math.Ceiling(20 * resolution / rough), 1, Math.Max(1, times.Length / 4));
        var pattern = rowsPerTime > SharedRows ? default : StepPattern.Find(times, place);
        lag *= Math.Max(1, pattern.Period);
        if (pattern.Period == 0 && rowsPerTime <= SharedRows && !StepPattern.MostlyAlike(times, place))
        {
            lag = Math.Max(lag, Math.Min(IrregularLag, Math.Max(1, times.Length / 4)));
        }

        var found = Median(times, lag) / lag;
        if (!(found > 0))
        {
            found = rough;
        }

        for (lag *= 2; lag <= times.Length / 4 && Refine(times, lag, found, resolution) is { } finer; lag *= 2)
        {
            found = finer;
        }

        return new TimeGrid(found, resolution, rowsPerTime, resolution > 0.5 * found ? 0 : JitterOf(times, found), pattern);
    }

    /// <summary>Works out the jitter from the median distance of a step from the mean step: 0.6745 standard deviations, of two times.</summary>
    private static double JitterOf(ReadOnlySpan<double> times, double step)
    {
        var distances = new double[times.Length - 1];
        for (var i = 0; i < distances.Length; i++)
        {
            distances[i] = Math.Abs(times[i + 1] - times[i] - step);
        }

        Array.Sort(distances);
        return distances[distances.Length / 2] / 0.6745 / Math.Sqrt(2);
    }

    private static double Median(ReadOnlySpan<double> times, int lag)
    {
        var spans = new double[Math.Max(times.Length - lag, 1)];
        for (var i = 0; i < times.Length - lag; i++)
        {
            spans[i] = times[i + lag] - times[i];
        }

        Array.Sort(spans);
        return spans[spans.Length / 2];
    }

    private static double? Refine(ReadOnlySpan<double> times, int lag, double step, double resolution)
    {
        var (sum, count) = (0.0, 0);
        for (var i = 0; i < times.Length - lag; i++)
        {
            var span = times[i + lag] - times[i];
            if (Math.Abs(span - (lag * step)) <= (0.5 * step) + resolution)
            {
                sum += span;
                count++;
            }
        }

        return count * 5 >= times.Length - lag ? sum / count / lag : null;
    }
}
