using StrokeWatch.Measurement.Stroke;

namespace StrokeWatch.Measurement.Impacts;

/// <summary>What a window's cycles differ by: in every second or third of them (<see cref="SubOrders"/>), and in common (<see cref="CommonBlow"/>).</summary>
internal sealed class DifferingCycles
{
    /// <summary>How many numbers there are about one end.</summary>
    public const int Count = SubOrders.Count + CommonBlow.Count;

    private const int Bins = HighCycles.Bins;

    private readonly SubOrders subOrders = new();
    private readonly CommonBlow common = new();
    private double[] rows = [];
    private double[] norms = [];
    private double[] sorted = [];

    /// <summary>Works a window's cycles out. One that differs far more than most counts little more than they do: a lump of material must not speak for all.</summary>
    /// <param name="window">The cycles.</param>
    /// <param name="mean">Their mean.</param>
    /// <param name="sector">The sixteenth of the cycle in which each bin lies.</param>
    /// <param name="samplesPerCycle">Samples in a cycle.</param>
    /// <param name="quietest">The variance of the quietest sixteenths, in m²/s⁴.</param>
    /// <param name="fundamental">The fundamental's power along the line, in m²/s⁴.</param>
    public void Work(HighCycles window, ReadOnlySpan<double> mean, ReadOnlySpan<int> sector, double samplesPerCycle, double quietest, double fundamental)
    {
        var count = window.Count;
        if (norms.Length < count)
        {
            (rows, norms, sorted) = (new double[2 * count * Bins], new double[2 * count], new double[2 * count]);
        }

        for (var m = 0; m < count; m++)
        {
            var row = rows.AsSpan(m * Bins, Bins);
            window[m].CopyTo(row);
            Lanes.AddWeighted(mean, -1, row);
            norms[m] = sorted[m] = Math.Sqrt(RhythmLines.Square(row));
        }

        sorted.AsSpan(0, count).Sort();
        var limit = 1.2 * sorted[(int)(0.7 * count)];
        for (var m = 0; m < count; m++)
        {
            if (norms[m] > limit)
            {
                var row = rows.AsSpan(m * Bins, Bins);
                Lanes.Weigh(row, limit / norms[m], row);
                norms[m] = limit;
            }
        }

        subOrders.Work(rows, count, samplesPerCycle, fundamental);
        common.Work(rows, norms.AsSpan(0, count), sector, quietest, fundamental);
    }

    /// <summary>Gives the numbers about one end of the path.</summary>
    /// <param name="half">The sixteenth at which the end is.</param>
    /// <param name="into">Takes the numbers.</param>
    /// <param name="n">Where the first one goes.</param>
    /// <returns>Where the next one goes.</returns>
    public int Fill(int half, Span<double> into, int n)
    {
        subOrders.Fill(into[n..]);
        return common.Fill(half, into, n + SubOrders.Count);
    }
}
