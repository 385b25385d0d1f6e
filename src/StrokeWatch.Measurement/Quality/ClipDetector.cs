using StrokeWatch.Measurement.Stroke;
using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Measurement.Quality;

/// <summary>Counts the samples of a window that stand at the sensor's rail, with the range known or not, the rail sharp or blurred. It allocates nothing after it is made.</summary>
internal sealed class ClipDetector(int axes)
{
    private const double NearFullScale = 0.995;
    private const double FarBelow = 0.7;
    private const int ShortestRun = 3;
    private const int LowOrders = 3;
    private const int Points = 128;
    private const int Memory = 8;
    private const double Negligible = 5e-4;

    private readonly BlurredRail blurred = new();
    private readonly double[] bottoms = new double[axes];
    private readonly double[] tops = new double[axes];
    private int remembered;

    /// <summary>Gets whether what was counted last is a blurred rail far from the full scale that is stated: hammering, too, may shape a cycle so.</summary>
    public bool Doubtful { get; private set; }

    /// <summary>Gets whether nothing was counted last, but the cycle is as flat as a cut at a rail makes it, and no range is stated that could tell: the window must not count.</summary>
    public bool Undecided { get; private set; }

    /// <summary>Gets the most that a cut which nobody can tell without the range takes off the window's fundamental, as a share of it.</summary>
    public double Hidden { get; private set; }

    /// <summary>Gets the axis that reached farthest out in the last window: the first that the end of a range cuts.</summary>
    public int Farthest
    {
        get
        {
            var farthest = 0;
            for (var a = 1; a < tops.Length; a++)
            {
                farthest = Math.Max(tops[a], -bottoms[a]) > Math.Max(tops[farthest], -bottoms[farthest]) ? a : farthest;
            }

            return farthest;
        }
    }

    /// <summary>Counts clipped samples.</summary>
    /// <param name="samples">One array an axis, in m/s².</param>
    /// <param name="marks">What the source itself marked.</param>
    /// <param name="start">First sample.</param>
    /// <param name="fullScale">Full scale in m/s²; null where unknown, then runs of equal extreme values tell.</param>
    /// <param name="fit">The harmonics of the same samples.</param>
    public int Count(double[][] samples, ReadOnlySpan<SampleMarks> marks, int start, double? fullScale, IWindowHarmonics fit)
    {
        var worst = marks.Length - marks.Count(SampleMarks.None);
        for (var a = 0; a < samples.Length; a++)
        {
            var values = samples[a].AsSpan(start, marks.Length);
            (bottoms[a], tops[a]) = Lanes.Extremes(values);
            worst = Math.Max(worst, fullScale is { } rail ? AtRail(values, bottoms[a], tops[a], NearFullScale * rail) : AtExtremes(values, bottoms[a], tops[a], fit, a));
        }

        double lost = 0, all = 0;
        (Doubtful, Undecided, blurred.Before) = (false, false, remembered > 0);
        for (var a = 0; a < samples.Length && worst == 0; a++)
        {
            worst = blurred.Count(samples[a].AsSpan(start, marks.Length), bottoms[a], tops[a], fit, a, fullScale);
            Undecided |= blurred.Undecided;
            var power = fit.Cosine(a)[1] * fit.Cosine(a)[1] + fit.Sine(a)[1] * fit.Sine(a)[1];
            (lost, all) = (lost + (fullScale is null && power > 0 ? power * Math.Max(blurred.Hidden, 2 * blurred.Shape * Plateau.Lost(Plateau.HiddenArc(fit.Count, Math.Sqrt(power) / fit.ResidualDeviation))) : 0), all + power);
            Doubtful = worst > 0 && Math.Max(tops[a], -bottoms[a]) < FarBelow * fullScale;
        }

        Hidden = all > 0 && lost > Negligible * all ? lost / all : 0;
        remembered = worst > 0 || Undecided ? Memory : Math.Max(0, remembered - 1);
        return worst;
    }

    private static int AtRail(ReadOnlySpan<double> values, double bottom, double top, double rail)
    {
        if (top < rail && bottom > -rail)
        {
            return 0;
        }

        var count = 0;
        foreach (var value in values)
        {
            count += Math.Abs(value) >= rail ? 1 : 0;
        }

        return count;
    }

    private static int AtExtremes(ReadOnlySpan<double> values, double bottom, double top, IWindowHarmonics fit, int axis)
    {
        var swing = 0.5 * (top - bottom);
        if (swing <= 0)
        {
            return 0;
        }

        var (atTop, atBottom) = Lanes.CountEqual(values, top, bottom);
        return (atTop < ShortestRun ? 0 : InRuns(values, top, swing, 1, fit, axis)) + (atBottom < ShortestRun ? 0 : InRuns(values, bottom, swing, -1, fit, axis));
    }

    private static int InRuns(ReadOnlySpan<double> values, double extreme, double swing, int side, IWindowHarmonics fit, int axis)
    {
        // A quantised peak is flat for as long as the sine stays within one step of its top.
        double quantum = swing, total = 0;
        int run = 0, longest = 0, inRuns = 0;
        for (var n = 0; n <= values.Length; n++)
        {
            var distance = n < values.Length ? Math.Abs(values[n] - extreme) : double.PositiveInfinity;
            if (distance <= 1e-9 * swing)
            {
                run++;
                total++;
                continue;
            }

            quantum = Math.Min(quantum, distance);
            longest = Math.Max(longest, run);
            inRuns += run >= ShortestRun ? run : 0;
            run = 0;
        }

        var flat = Math.Acos(Math.Clamp(1 - quantum / swing, -1, 1)) / (Math.PI * fit.Frequency);
        return longest >= ShortestRun && longest > 1.5 * flat + 1 && inRuns >= 0.5 * total
            && longest > 1.5 * FlatOfHarmonics(fit, axis, side, quantum) + 1 ? (int)total : 0;
    }

    /// <summary>Gives the samples for which the low harmonics, which may flatten a peak without a rail, stay within a step of their top.</summary>
    private static double FlatOfHarmonics(IWindowHarmonics fit, int axis, int side, double quantum)
    {
        Span<double> wave = stackalloc double[Points];
        var most = double.MinValue;
        for (var i = 0; i < Points; i++)
        {
            var value = 0.0;
            for (var k = 1; k <= Math.Min(LowOrders, fit.Orders); k++)
            {
                var (sin, cos) = Math.SinCos(2 * Math.PI * k * i / Points);
                value += fit.Cosine(axis)[k] * cos + fit.Sine(axis)[k] * sin;
            }

            wave[i] = side * value;
            most = Math.Max(most, wave[i]);
        }

        int run = 0, longest = 0;
        for (var i = 0; i < 2 * Points; i++)
        {
            run = wave[i % Points] > most - quantum ? run + 1 : 0;
            longest = Math.Max(longest, run);
        }

        return Math.Min(longest, Points) / (Points * fit.Frequency);
    }
}
