using StrokeWatch.Measurement.Stroke;

namespace StrokeWatch.Measurement.Impacts;

/// <summary>Takes every second, third … sample of a fast line, after what the slower rate could not hold has been filtered off.</summary>
/// <remarks>A sinc under Hamming's window (from memory), <see cref="Reach"/> samples of the slower rate to either side. Storage grows to what is needed and stays.</remarks>
internal sealed class SlowerLine
{
    /// <summary>Samples of the slower rate at either end of which the line is not complete.</summary>
    public const int Reach = 12;

    private double[] taps = [];
    private double[] values = [];
    private int factor;

    /// <summary>Gives the slower line: its first value lies at the first sample.</summary>
    /// <param name="line">The line.</param>
    /// <param name="every">How many of its samples make one; at least 2.</param>
    public ReadOnlySpan<double> Take(ReadOnlySpan<double> line, int every)
    {
        if (every != factor)
        {
            (factor, taps) = (every, MakeTaps(every));
        }

        var count = ((line.Length - 1) / every) + 1;
        if (values.Length < count)
        {
            values = new double[count];
        }

        var reach = taps.Length / 2;
        for (var i = 0; i < count; i++)
        {
            var (from, to) = (Math.Max(0, (i * every) - reach), Math.Min(line.Length, (i * every) + reach + 1));
            values[i] = Lanes.Dot(line[from..to], taps.AsSpan(from - (i * every) + reach, to - from));
        }

        return values.AsSpan(0, count);
    }

    private static double[] MakeTaps(int every)
    {
        var reach = Reach * every;
        var taps = new double[(2 * reach) + 1];
        var sum = 0.0;
        for (var i = 0; i < taps.Length; i++)
        {
            var x = (i - reach) / (double)every;
            taps[i] = (x == 0 ? 1 : Math.Sin(Math.PI * x) / (Math.PI * x)) * (0.54 + (0.46 * Math.Cos(Math.PI * x / (Reach + 1))));
            sum += taps[i];
        }

        Lanes.Weigh(taps, 1 / sum, taps);
        return taps;
    }
}
