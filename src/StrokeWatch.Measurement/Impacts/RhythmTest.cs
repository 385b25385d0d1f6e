using StrokeWatch.Measurement.Stroke;

namespace StrokeWatch.Measurement.Impacts;

/// <summary>
/// The variance of a window's cycles taken apart: what all share, what every second, what every third; Fisher's F tells how likely noise alone would do it.
/// </summary>
internal sealed class RhythmTest
{
    private const int Bins = HighCycles.Bins;
    private const int Classes = RhythmLines.Classes;

    /// <summary>What repeats must make up so much of the cycles' energy; single knocks whose ringing reaches into the next cycle stay below.</summary>
    private const double LeastLikeness = 0.2;

    /// <summary>The same for what differs in a rhythm: chance alone gives up to a twelfth.</summary>
    private const double LeastRhythm = 0.25;

    /// <summary>Knocks whose peak is a smaller share of the fundamental's amplitude are not looked for.</summary>
    private const double LeastPeakShare = 0.003;

    /// <summary>A ratio of variances below this is no evidence of anything, and is not looked up.</summary>
    private const double FirstLook = 1.5;

    private readonly double[] sums = new double[Classes * Bins];
    private readonly int[] members = new int[Classes];
    private readonly double[] mean = new double[Bins];
    private readonly double[] part = new double[Bins];
    private double[] sorted = [];
    private double energy;
    private int count;

    /// <summary>Takes a window's cycles.</summary>
    public void Take(HighCycles window)
    {
        count = window.Count;
        var limit = Limit(window.Norms);
        Array.Clear(sums);
        Array.Clear(members);
        energy = 0;
        for (var m = 0; m < count; m++)
        {
            // Rare loud cycles count little more than those that are loud by rhythm: one lump of material must not speak for all cycles.
            var norm = window.Norms[m];
            var scale = norm > limit ? limit / norm : 1;
            Lanes.AddWeighted(window[m], scale, sums.AsSpan(m % Classes * Bins, Bins));
            members[m % Classes]++;
            energy += scale * norm * scale * norm;
        }

        Array.Clear(mean);
        for (var c = 0; c < Classes; c++)
        {
            Lanes.AddWeighted(sums.AsSpan(c * Bins, Bins), 1.0 / count, mean);
        }
    }

    /// <summary>Gives the common logarithm of the probability that noise alone makes the cycles as alike as they are.</summary>
    public double Locked(int dimensions, double fundamental)
    {
        var shared = count * RhythmLines.Square(mean);
        if (shared < LeastLikeness * energy || RhythmLines.Peak(mean) < LeastPeakShare * fundamental)
        {
            return 0;
        }

        return LineSignificance.LogFProbability(shared * (count - 1) / Math.Max(energy - shared, 1e-12 * energy), dimensions, dimensions * (count - 1.0));
    }

    private double Limit(ReadOnlySpan<double> norms)
    {
        if (sorted.Length < norms.Length)
        {
            sorted = new double[2 * norms.Length];
        }

        norms.CopyTo(sorted);
        sorted.AsSpan(0, norms.Length).Sort();
        return 1.2 * sorted[(int)(0.7 * norms.Length)];
    }

    /// <summary>Gives the logarithm of the probability that noise alone makes every second or third cycle differ as it does, in more than one or two lines.</summary>
    public double Rhythm(int period, int dimensions, double fundamental)
    {
        double between = 0, total = energy - (count * RhythmLines.Square(mean)), peak = 0;
        for (var first = 0; first < period; first++)
        {
            var size = 0;
            Array.Clear(part);
            for (var c = first; c < Classes; c += period)
            {
                Lanes.AddWeighted(sums.AsSpan(c * Bins, Bins), 1, part);
                size += members[c];
            }

            for (var bin = 0; bin < Bins; bin++)
            {
                part[bin] = part[bin] / size - mean[bin];
            }

            between += size * RhythmLines.Square(part);
            peak = Math.Max(peak, RhythmLines.Peak(part));
        }

        var within = Math.Max(total - between, 1e-12 * total);
        var (groups, left) = ((period - 1) * dimensions, (double)(count - period) * dimensions);
        var ratio = between / groups / (within / left);
        if (ratio < FirstLook || between < LeastRhythm * total || peak < LeastPeakShare * fundamental)
        {
            return 0;
        }

        // A neighbour's tone may happen to lie on a half or third order: without the strongest lines the rest must still speak.
        var strongest = RhythmLines.Strongest(sums, Bins, period, count);
        var rest = Math.Max(0, between - strongest);
        return Math.Max(
            LineSignificance.LogFProbability(ratio, groups, left),
            LineSignificance.LogFProbability(rest / Math.Max(1, groups - 4) / (within / left), Math.Max(1, groups - 4), left));
    }
}
