using StrokeWatch.Measurement.Stroke;
using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Measurement.Quality;

/// <summary>Counts the samples of a window that stand at the sensor's rail, with the range known or not.</summary>
internal static class ClipDetector
{
    private const double NearFullScale = 0.995;
    private const int ShortestRun = 3;

    /// <summary>Counts clipped samples.</summary>
    /// <param name="axes">One array an axis, in m/s².</param>
    /// <param name="marks">What the source itself marked.</param>
    /// <param name="start">First sample.</param>
    /// <param name="fullScale">Full scale in m/s²; null where unknown, then runs of equal extreme values tell.</param>
    /// <param name="cyclesPerSample">The drive, to know how flat an unclipped peak may look.</param>
    public static int Count(
        double[][] axes, ReadOnlySpan<SampleMarks> marks, int start, double? fullScale, double cyclesPerSample)
    {
        var marked = marks.Length - marks.Count(SampleMarks.None);
        var worst = marked;
        foreach (var axis in axes)
        {
            var values = axis.AsSpan(start, marks.Length);
            worst = Math.Max(worst, fullScale is { } rail ? AtRail(values, NearFullScale * rail) : AtExtremes(values, cyclesPerSample));
        }

        return worst;
    }

    private static int AtRail(ReadOnlySpan<double> values, double rail)
    {
        var (bottom, top) = Lanes.Extremes(values);
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

    private static int AtExtremes(ReadOnlySpan<double> values, double cyclesPerSample)
    {
        var (bottom, top) = Lanes.Extremes(values);
        var swing = 0.5 * (top - bottom);
        return swing <= 0 ? 0 : InRuns(values, top, swing, cyclesPerSample) + InRuns(values, bottom, swing, cyclesPerSample);
    }

    private static int InRuns(ReadOnlySpan<double> values, double extreme, double swing, double cyclesPerSample)
    {
        if (values.Count(extreme) < ShortestRun)
        {
            return 0;
        }

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

        var flat = Math.Acos(Math.Clamp(1 - quantum / swing, -1, 1)) / (Math.PI * cyclesPerSample);
        return longest >= ShortestRun && longest > 1.5 * flat + 1 && inRuns >= 0.5 * total ? (int)total : 0;
    }
}
