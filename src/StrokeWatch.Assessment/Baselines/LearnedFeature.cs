namespace StrokeWatch.Assessment.Baselines;

/// <summary>The readings of one feature while it is learned, at most 512: when they are full every second goes, and from then on every second is taken.</summary>
internal sealed class LearnedFeature(string name)
{
    private const int Most = 512;
    private const double Wild = 5;
    private const int EnoughToTellWild = 8;
    private const double DeviationOfMedianDeviation = 1.4826;

    private readonly List<(DateTimeOffset At, double Value, double Own)> kept = [];
    private int stride = 1;
    private int passed;

    /// <summary>Gets how many readings are kept.</summary>
    public int Count => kept.Count;

    /// <summary>Gets the time from the first to the last reading.</summary>
    public TimeSpan Span => kept.Count > 0 ? kept[^1].At - kept[0].At : TimeSpan.Zero;

    /// <summary>Takes a reading, or passes it over where every so-manieth is enough.</summary>
    public void Add(DateTimeOffset at, double value, double own)
    {
        if (++passed < stride)
        {
            return;
        }

        passed = 0;
        if (kept.Count == Most)
        {
            var place = 0;
            kept.RemoveAll(_ => place++ % 2 == 1);
            stride *= 2;
        }

        kept.Add((at, value, own));
    }

    /// <summary>Sums up; single readings more than five deviations off the median, told by the median of the differences, are set aside and counted, where there are eight or more to tell by.</summary>
    public BaselineFeature Sum()
    {
        var median = MedianOf(kept.Select(reading => reading.Value));
        var reach = Wild * DeviationOfMedianDeviation * MedianOf(kept.Select(reading => Math.Abs(reading.Value - median)));

        // A few readings, or those of which more than half are alike to the last digit, say nothing of how far others may be off.
        var used = reach > 0 && kept.Count >= EnoughToTellWild ? kept.Where(reading => Math.Abs(reading.Value - median) <= reach).ToList() : kept;
        var mean = used.Average(reading => reading.Value);
        return new()
        {
            Name = name,
            Mean = mean,
            Spread = Math.Sqrt(used.Sum(reading => (reading.Value - mean) * (reading.Value - mean)) / (used.Count - 1)),
            OwnUncertainty = Math.Sqrt(used.Average(reading => reading.Own * reading.Own)),
            Count = used.Count,
            SetAside = kept.Count - used.Count,
            From = kept[0].At,
            To = kept[^1].At,
        };
    }

    private static double MedianOf(IEnumerable<double> values)
    {
        double[] sorted = [.. values.Order()];
        return (sorted[(sorted.Length - 1) / 2] + sorted[sorted.Length / 2]) / 2;
    }
}
