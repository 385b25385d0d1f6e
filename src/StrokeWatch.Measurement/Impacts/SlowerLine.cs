using StrokeWatch.Measurement.Stroke;

namespace StrokeWatch.Measurement.Impacts;

/// <summary>
/// A window of a fast sensor as one of a slower sensor would be: every second, third … sample, after what the slower rate could not hold has been filtered off.
/// Blows are listened for at rates on which the trees were grown, with no more samples in a cycle than there are bins.
/// </summary>
/// <remarks>A sinc under Hamming's window (from memory). The slower samples lie evenly about the middle of the window, where the fit counts from. Storage grows to what is needed and stays.</remarks>
internal sealed class SlowerLine
{
    /// <summary>A line is slowed down to this rate in Hz or more.</summary>
    private const double LeastHz = 3000;

    /// <summary>Samples of the slower rate that are needed on either side of one.</summary>
    private const int Reach = 12;

    private readonly double[][] taps = new double[2][];
    private double[] values = [];
    private int factor;

    /// <summary>Gives how many samples make one; 1 where the line is slow enough as it is.</summary>
    public static int Every(double rateHz) => Math.Max(1, (int)(rateHz / LeastHz));

    /// <summary>Gives the slower line.</summary>
    /// <param name="line">The line.</param>
    /// <param name="every">How many of its samples make one; at least 2.</param>
    public ReadOnlySpan<double> Take(ReadOnlySpan<double> line, int every)
    {
        if (every != factor)
        {
            (factor, taps[0], taps[1]) = (every, MakeTaps(every, 0), MakeTaps(every, 0.5));
        }

        // The first one lies on a sample or half-way between two.
        var count = Math.Max(0, (line.Length - 1 - (2 * Reach * every)) / every);
        var first = 0.5 * (line.Length - 1 - ((count - 1) * every));
        var (whole, filter) = ((int)first, taps[first > (int)first ? 1 : 0]);
        if (values.Length < count)
        {
            values = new double[count];
        }

        for (var i = 0; i < count; i++)
        {
            values[i] = Lanes.Dot(line.Slice(whole + (i * every) - (Reach * every), filter.Length), filter);
        }

        return values.AsSpan(0, count);
    }

    private static double[] MakeTaps(int every, double past)
    {
        var filter = new double[(2 * Reach * every) + 1];
        var sum = 0.0;
        for (var i = 0; i < filter.Length; i++)
        {
            var x = ((i - past) / every) - Reach;
            filter[i] = (x == 0 ? 1 : Math.Sin(Math.PI * x) / (Math.PI * x)) * (0.54 + (0.46 * Math.Cos(Math.PI * x / (Reach + 1))));
            sum += filter[i];
        }

        Lanes.Weigh(filter, 1 / sum, filter);
        return filter;
    }
}
