using StrokeWatch.Measurement.Stroke;

namespace StrokeWatch.Measurement.Impacts;

/// <summary>What a second difference makes of the fitted orders of a window over one cycle: the part of the cycles that all share, exact at any phase.</summary>
internal sealed class LockedCycle
{
    private const int Bins = HighCycles.Bins;
    private static readonly double[] Cosines = [.. Enumerable.Range(0, Bins).Select(bin => Math.Cos(2 * Math.PI * bin / Bins))];
    private readonly double[] values = new double[Bins];

    /// <summary>Gets the values, one a bin.</summary>
    public ReadOnlySpan<double> Values => values;

    /// <summary>Works the values out.</summary>
    /// <param name="path">The line's harmonics.</param>
    /// <param name="from">The lowest order.</param>
    /// <param name="until">The highest order.</param>
    /// <param name="frequency">The fundamental in cycles a sample.</param>
    /// <param name="lag">The samples between the ends of the difference and its middle.</param>
    /// <param name="first">The fundamental's phase at the first bin, in radians.</param>
    public void Take(LineHarmonics path, int from, int until, double frequency, int lag, double first)
    {
        Array.Clear(values);
        for (var k = from; k <= until; k++)
        {
            var weight = 1 - Math.Cos(2 * Math.PI * frequency * lag * k);
            var (sin, cos) = Math.SinCos(k * first);
            var (c, s) = (path.LineCosine[k], path.LineSine[k]);
            var (re, im) = (weight * ((c * cos) + (s * sin)), weight * ((s * cos) - (c * sin)));
            for (var bin = 0; bin < Bins; bin++)
            {
                var turn = k * bin % Bins;
                values[bin] += (re * Cosines[turn]) + (im * Cosines[(turn + (3 * Bins / 4)) % Bins]);
            }
        }
    }
}
