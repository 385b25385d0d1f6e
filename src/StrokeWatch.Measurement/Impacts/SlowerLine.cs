using System.Numerics;
using StrokeWatch.Measurement.Stroke;

namespace StrokeWatch.Measurement.Impacts;

/// <summary>
/// A window of a fast sensor as one of a slower sensor would be: every second, third … sample, after what the slower rate could not hold has been filtered off.
/// Blows are listened for at rates on which the trees were grown, with no more samples in a cycle than there are bins.
/// </summary>
/// <remarks>
/// First the corner that a sensor of that rate has, two poles at 0.36 of it, which lets orders near the end of the band sink and lag as the trees know it; then a sinc under Hamming's window
/// (both from memory). The slower samples lie evenly about the middle of the window, where the fit counts from. Storage grows to what is needed and stays.
/// </remarks>
internal sealed class SlowerLine
{
    /// <summary>A line is slowed down to this rate in Hz or more.</summary>
    private const double LeastHz = 3000;

    /// <summary>Samples of the slower rate that are needed on either side of one.</summary>
    private const int Reach = 24;

    private const double CornerShare = 0.36;

    private readonly double[][] taps = new double[2][];
    private double[] values = [];
    private double[] rounded = [];
    private int factor;

    /// <summary>Gives how many samples make one; 1 where the line is slow enough as it is.</summary>
    public static int Every(double rateHz) => Math.Max(1, (int)(rateHz / LeastHz));

    /// <summary>Gives what the corner makes of a frequency in cycles a sample of the fast line (bilinear transform of two Butterworth poles).</summary>
    public static Complex Corner(double frequency, int every)
    {
        var share = Math.Tan(Math.PI * frequency) / Math.Tan(Math.PI * CornerShare / every);
        return 1 / new Complex(1 - (share * share), Math.Sqrt(2) * share);
    }

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

        var corner = Round(line, every);
        for (var i = 0; i < count; i++)
        {
            values[i] = Lanes.Dot(corner.Slice(whole + (i * every) - (Reach * every), filter.Length), filter);
        }

        return values.AsSpan(0, count);
    }

    private ReadOnlySpan<double> Round(ReadOnlySpan<double> line, int every)
    {
        if (rounded.Length < line.Length)
        {
            rounded = new double[line.Length];
        }

        if (line.IsEmpty)
        {
            return line;
        }

        var k = Math.Tan(Math.PI * CornerShare / every);
        var scale = 1 / (1 + (Math.Sqrt(2) * k) + (k * k));
        var (b, a1, a2) = (k * k * scale, 2 * ((k * k) - 1) * scale, (1 - (Math.Sqrt(2) * k) + (k * k)) * scale);

        // It begins as if the first value had stood for ever.
        var (x1, x2, y1, y2) = (line[0], line[0], line[0], line[0]);
        for (var n = 0; n < line.Length; n++)
        {
            var value = (b * (line[n] + x1 + x1 + x2)) - (a1 * y1) - (a2 * y2);
            (x2, x1, y2, y1) = (x1, line[n], y1, value);
            rounded[n] = value;
        }

        return rounded.AsSpan(0, line.Length);
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
