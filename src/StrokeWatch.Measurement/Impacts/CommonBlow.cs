using StrokeWatch.Measurement.Stroke;

namespace StrokeWatch.Measurement.Impacts;

/// <summary>
/// What the cycles of a window have in common in what they differ by: blows that are now harder, now softer at one moment of the cycle differ by one waveform, times a number
/// a cycle; knocks that come when they like differ by many.
/// </summary>
/// <remarks>The first two principal components of the cycles less their mean, by power iteration.</remarks>
internal sealed class CommonBlow
{
    /// <summary>How many numbers there are about one end.</summary>
    public const int Count = Plain + 4;

    private const int Plain = 8;
    private const int Bins = HighCycles.Bins;
    private const int Iterations = 6;

    private readonly double[] first = new double[Bins];
    private readonly double[] second = new double[Bins];
    private readonly double[] next = new double[Bins];
    private readonly double[] shape = new double[BlowFeatures.Sectors];
    private readonly double[] plain = new double[Plain];
    private double[] scores = [];

    /// <summary>Works a window's cycles out.</summary>
    /// <param name="rows">Cycles less their mean, one after the other.</param>
    /// <param name="norms">The root of each one's energy.</param>
    /// <param name="sector">The sixteenth of the cycle in which each bin lies.</param>
    /// <param name="quietest">The variance of the quietest sixteenths.</param>
    /// <param name="fundamental">The fundamental's power along the line, in m²/s⁴.</param>
    public void Work(ReadOnlySpan<double> rows, ReadOnlySpan<double> norms, ReadOnlySpan<int> sector, double quietest, double fundamental)
    {
        var count = norms.Length;
        if (scores.Length < count)
        {
            scores = new double[2 * count];
        }

        double total = 0, loudest = -1;
        var start = 0;
        for (var m = 0; m < count; m++)
        {
            total += norms[m] * norms[m];
            (loudest, start) = norms[m] > loudest ? (norms[m], m) : (loudest, start);
        }

        total = Math.Max(total, 1e-300);
        rows.Slice(start * Bins, Bins).CopyTo(first);
        var strongest = Iterate(rows, count, first, default);
        var row = scores.AsSpan(0, count);
        Scores(row, strongest, total, quietest, fundamental);

        // What is left of the cycle that differs most begins the second one.
        (loudest, start) = (-1, 0);
        for (var m = 0; m < count; m++)
        {
            var left = (norms[m] * norms[m]) - (row[m] * row[m]);
            (loudest, start) = left > loudest ? (left, m) : (loudest, start);
        }

        rows.Slice(start * Bins, Bins).CopyTo(second);
        plain[1] = BlowOrders.Log(Iterate(rows, count, second, first), strongest);
        Array.Clear(shape);
        for (var bin = 0; bin < Bins; bin++)
        {
            shape[sector[bin]] += first[bin] * first[bin];
        }
    }

    /// <summary>Gives the numbers about one end of the path.</summary>
    /// <param name="half">The sixteenth at which the end is.</param>
    /// <param name="into">Takes the numbers.</param>
    /// <param name="n">Where the first one goes.</param>
    /// <returns>Where the next one goes.</returns>
    public int Fill(int half, Span<double> into, int n)
    {
        plain.CopyTo(into[n..]);
        n += Plain;
        return BlowFeatures.Circular(shape, half, into, n);
    }

    /// <summary>Turns a waveform towards the one that most cycles differ by, across to another; gives the energy that it explains.</summary>
    private double Iterate(ReadOnlySpan<double> rows, int count, Span<double> wave, ReadOnlySpan<double> across)
    {
        for (var i = 0; i <= Iterations; i++)
        {
            if (!across.IsEmpty)
            {
                Lanes.AddWeighted(across, -Lanes.Dot(across, wave), wave);
            }

            var length = Math.Sqrt(Lanes.Dot(wave, wave));
            Lanes.Weigh(wave, length > 0 ? 1 / length : 0, wave);
            Array.Clear(next);
            var energy = 0.0;
            for (var m = 0; m < count; m++)
            {
                var row = rows.Slice(m * Bins, Bins);
                var score = Lanes.Dot(row, wave);
                if (i == Iterations)
                {
                    (energy, scores[m]) = (energy + (score * score), score);
                    continue;
                }

                Lanes.AddWeighted(row, score, next);
            }

            if (i == Iterations)
            {
                return energy;
            }

            next.CopyTo(wave);
        }

        return 0;
    }

    private void Scores(ReadOnlySpan<double> row, double energy, double total, double quietest, double fundamental)
    {
        double cubes = 0, fourths = 0, before = 0, twoBefore = 0;
        for (var m = 0; m < row.Length; m++)
        {
            var square = row[m] * row[m];
            (cubes, fourths) = (cubes + (square * row[m]), fourths + (square * square));
            before += m > 0 ? row[m] * row[m - 1] : 0;
            twoBefore += m > 1 ? row[m] * row[m - 2] : 0;
        }

        energy = Math.Max(energy, 1e-300);
        var mean = energy / row.Length;
        plain[0] = BlowOrders.Log(energy, total);
        plain[2] = BlowOrders.Log(mean / Bins, fundamental);
        plain[3] = BlowOrders.Log(mean, quietest);
        plain[4] = Math.Abs(cubes) / row.Length / Math.Pow(mean, 1.5);
        plain[5] = fourths / row.Length / (mean * mean);
        plain[6] = before / energy;
        plain[7] = twoBefore / energy;
    }
}
