using StrokeWatch.Measurement.Stroke;

namespace StrokeWatch.Measurement.Impacts;

/// <summary>How strong a window's orders are in bands of frequency, and how far they point the same way at the closest approach of armature and core.</summary>
internal sealed class BlowOrders
{
    /// <summary>How many numbers there are about one end.</summary>
    public const int Count = (3 * LowOrders) + (4 * 8);

    private const int LowOrders = 4;
    private const double Missing = -7;

    /// <summary>An order's power below this many times its noise is taken for noise.</summary>
    private const double Stands = 9;

    private readonly double[] level = new double[Bands];
    private readonly double[] above = new double[Bands];
    private readonly double[] coherence = new double[4 * Bands];
    private readonly double[] low = new double[3 * LowOrders];

    private static ReadOnlySpan<double> Edges => [130, 250, 400, 560, 720, 1000, 1440, 2000, 2880];

    private static int Bands => Edges.Length - 1;

    /// <summary>Gives the power of an order along the line.</summary>
    public static double Power(LineHarmonics path, int order) =>
        (path.LineCosine[order] * path.LineCosine[order]) + (path.LineSine[order] * path.LineSine[order]);

    /// <summary>Gives the common logarithm of a ratio, within ±12.</summary>
    public static double Log(double value, double over) => Math.Clamp(Math.Log10(Math.Max(value, 1e-300) / Math.Max(over, 1e-300)), -12, 12);

    /// <summary>Works a window's orders out.</summary>
    /// <param name="fit">The fit.</param>
    /// <param name="path">The line's harmonics.</param>
    /// <param name="rateHz">Sampling rate in Hz.</param>
    /// <param name="floor">What noise makes of an order's power.</param>
    /// <param name="near">The phase in radians at which the acceleration along the line is greatest.</param>
    public void Work(IWindowHarmonics fit, LineHarmonics path, double rateHz, double floor, double near)
    {
        var (hertz, fundamental) = (fit.Frequency * rateHz, Power(path, 1));
        var highest = Windows.OrderChoice.Share(rateHz) * rateHz;
        for (var i = 0; i < LowOrders; i++)
        {
            var k = i + 2;
            var there = k <= fit.Orders && k * hertz < highest;
            var (re, im) = there ? About(path, k, near) : (0, 0);
            var power = (re * re) + (im * im);
            low[3 * i] = there ? Math.Max(-6, Log(Math.Max(power, floor), fundamental)) : Missing;
            (low[(3 * i) + 1], low[(3 * i) + 2]) = power < Stands * floor ? (0, 0) : (re / Math.Sqrt(power), im / Math.Sqrt(power));
        }

        for (var band = 0; band < Bands; band++)
        {
            var c = coherence.AsSpan(4 * band, 4);
            c.Clear();
            var (from, until) = (Math.Max(2, (int)Math.Ceiling(Edges[band] / hertz)), (int)Math.Ceiling(Math.Min(Edges[band + 1], highest) / hertz));
            double logs = 0, largest = double.NegativeInfinity, sum = 0;
            for (var k = from; k < until; k++)
            {
                var power = k <= fit.Orders ? Power(path, k) : 0;
                var stands = power >= Stands * floor;
                var share = Log(stands ? power : floor, fundamental);
                (logs, largest, sum) = (logs + share, Math.Max(largest, share), sum + (stands ? power : floor));
                if (stands)
                {
                    var (re, im) = About(path, k, near);
                    var odd = (k % 2) * 2;
                    (c[odd], c[odd + 1]) = (c[odd] + re, c[odd + 1] + im);
                }
            }

            var count = until - from;
            if (count <= 0)
            {
                (level[band], above[band]) = (Missing, -1);
                continue;
            }

            // The strongest order is left out where there are others: what a mode of the tray happens to raise must not speak for the band.
            level[band] = Math.Max(-6, (count > 1 ? (logs - largest) / (count - 1) : logs) / 2);
            above[band] = Log((sum / count) + floor, floor);
            var scale = 1 / Math.Sqrt(sum * count);
            for (var i = 0; i < 4; i++)
            {
                c[i] *= scale;
            }
        }
    }

    /// <summary>Gives an order's complex amplitude about the moment at which the acceleration along the line is greatest.</summary>
    private static (double Re, double Im) About(LineHarmonics path, int k, double near)
    {
        var (sin, cos) = Math.SinCos(k * near);
        var (c, s) = (path.LineCosine[k], path.LineSine[k]);
        return ((c * cos) + (s * sin), (c * sin) - (s * cos));
    }

    /// <summary>Gives the numbers about one end of the path and how many they are.</summary>
    public int Fill(int sign, Span<double> into)
    {
        var n = 0;
        for (var i = 0; i < LowOrders; i++)
        {
            // About the other end odd orders keep their sign in the sense of a push, even ones turn about.
            var turn = sign > 0 || i % 2 == 1 ? 1 : -1;
            into[n++] = low[3 * i];
            into[n++] = turn * low[(3 * i) + 1];
            into[n++] = turn * low[(3 * i) + 2];
        }

        for (var band = 0; band < Bands; band++)
        {
            var c = coherence.AsSpan(4 * band, 4);
            into[n++] = level[band];
            into[n++] = (sign * c[0]) + c[2];
            into[n++] = (sign * c[1]) + c[3];
            into[n++] = above[band];
        }

        return n;
    }
}
