using StrokeWatch.Measurement.Stroke;
using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Measurement.Drive;

/// <summary>The strongest line of a block at any frequency, with a check that it and its harmonics make up most of the vibration.</summary>
public static class StrongestLine
{
    private const double Lowest = 0.002;
    private const double Highest = 0.3;
    private const int MostSamples = 8192;
    private const int LeastCycles = 10;
    private const double ClearShare = 0.5;

    /// <summary>Finds the line in cycles a sample; null where none stands out.</summary>
    public static double? Find(SampleBlock block)
    {
        var count = Math.Min(block.Count, MostSamples);
        if (count * Highest < LeastCycles)
        {
            return null;
        }

        var axes = new double[block.Channels][];
        var total = 0.0;
        for (var a = 0; a < axes.Length; a++)
        {
            axes[a] = block[a][..count].ToArray();
            var mean = axes[a].Average();
            total += axes[a].Sum(value => (value - mean) * (value - mean));
        }

        var line = new LineScan().Find(axes, 0, count, Math.Max(Lowest, LeastCycles / (double)count), Highest, byVelocity: true);
        var fit = new HarmonicFit(axes.Length, Math.Clamp((int)(0.45 / line), 1, 20));
        var clear = total > 0 && fit.Fit(axes, 0, count, line, fit.LargestOrder, follow: true)
            && fit.SquaredResiduals < (1 - ClearShare) * total && fit.MeasuredFrequency > Lowest;
        return clear ? fit.MeasuredFrequency : null;
    }
}
