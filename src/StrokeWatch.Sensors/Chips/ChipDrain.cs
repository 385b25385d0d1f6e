namespace StrokeWatch.Sensors.Chips;

/// <summary>What one emptying of a chip's store gave: counts of x, y, z, and where samples are missing between them; made once and filled again and again.</summary>
internal sealed class ChipDrain(int capacity)
{
    private readonly int[] counts = new int[3 * capacity];
    private readonly bool[] breaks = new bool[capacity];
    private bool broken;

    /// <summary>Gets the number of samples held.</summary>
    public int Count { get; private set; }

    /// <summary>Gets the samples that a chip's store lost, times it overflowed.</summary>
    public long Overflows { get; private set; }

    /// <summary>Gets how often the order of the entries was lost and found again.</summary>
    public long Resyncs { get; private set; }

    /// <summary>Gets the counts of a sample: x, y, z.</summary>
    public ReadOnlySpan<int> this[int sample] => counts.AsSpan(3 * sample, 3);

    /// <summary>Gives whether samples are missing before a sample.</summary>
    public bool BreakBefore(int sample) => breaks[sample];

    /// <summary>Forgets the samples, but not that some are missing before the next.</summary>
    public void Clear() => Count = 0;

    /// <summary>Notes that the store overflowed: samples are missing before the next.</summary>
    public void Overflow()
    {
        Overflows++;
        broken = true;
    }

    /// <summary>Notes that entries were out of order: samples are missing before the next.</summary>
    public void Resync()
    {
        Resyncs++;
        broken = true;
    }

    /// <summary>Adds a sample; one for which there is no room is a loss.</summary>
    public void Add(int x, int y, int z)
    {
        if (Count == breaks.Length)
        {
            broken = true;
            return;
        }

        (counts[3 * Count], counts[(3 * Count) + 1], counts[(3 * Count) + 2]) = (x, y, z);
        breaks[Count++] = broken;
        broken = false;
    }
}
