namespace StrokeWatch.Sensors.Simulated;

/// <summary>What happened to the samples on their way into a capture.</summary>
internal sealed class CaptureFacts
{
    private const double SecondsPerCell = 0.05;
    private readonly HashSet<long> spoilt = [];
    private readonly List<(double AtSeconds, long Missing)> gaps = [];

    /// <summary>Gets the samples delivered.</summary>
    public long Samples { get; private set; }

    /// <summary>Gets the delivered samples with an axis at its rail.</summary>
    public long Clipped { get; private set; }

    /// <summary>Gets the true time in seconds up to which samples were made.</summary>
    public double Seconds { get; private set; }

    /// <summary>Gets the gaps.</summary>
    public IReadOnlyList<(double AtSeconds, long Missing)> Gaps => gaps;

    /// <summary>Notes a sample made at a true time.</summary>
    public void Made(double seconds, double step, bool lost, bool first, bool clipped)
    {
        Seconds = seconds + step;
        if (lost)
        {
            spoilt.Add(Cell(seconds));
            if (first)
            {
                gaps.Add((seconds, 0));
            }

            gaps[^1] = (gaps[^1].AtSeconds, gaps[^1].Missing + 1);
            return;
        }

        Samples++;
        if (clipped)
        {
            Clipped++;
            spoilt.Add(Cell(seconds));
        }
    }

    /// <summary>Says whether a stretch of true time holds lost or clipped samples.</summary>
    public bool IsSpoilt(double from, double to)
    {
        for (var cell = Cell(from); cell <= Cell(to); cell++)
        {
            if (spoilt.Contains(cell))
            {
                return true;
            }
        }

        return false;
    }

    private static long Cell(double seconds) => (long)Math.Floor(seconds / SecondsPerCell);
}
