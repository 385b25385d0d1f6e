using StrokeWatch.Measurement.Features;

namespace StrokeWatch.Assessment.Reports;

/// <summary>The levels of a capture's windows in memory that does not grow: when it is full, every second one goes, and from then on only every second is taken.</summary>
internal sealed class ThinnedLevels
{
    private const int Most = 1024;
    private readonly List<OrderLevels> kept = [];
    private long seen;
    private long every = 1;

    /// <summary>Gets what is kept, evenly over the capture.</summary>
    public IReadOnlyList<OrderLevels> Kept => kept;

    /// <summary>Takes a window's levels.</summary>
    public void Add(in OrderLevels levels)
    {
        if (seen++ % every != 0)
        {
            return;
        }

        if (kept.Count == Most)
        {
            for (var i = 0; i < Most / 2; i++)
            {
                kept[i] = kept[2 * i];
            }

            kept.RemoveRange(Most / 2, Most / 2);
            every *= 2;
            if ((seen - 1) % every != 0)
            {
                return;
            }
        }

        kept.Add(levels);
    }
}
