using System.Numerics;

namespace StrokeWatch.Measurement.CoastDown;

/// <summary>
/// The vibration near the drive's frequency as one complex amplitude a cycle: the samples under a Hann window of two cycles, turned back by the drive.
/// </summary>
/// <remarks>
/// A window is a linear filter: a free decay passes it as the same decay, only larger or smaller. Its zeros at f, 3f/2 and 2f keep off a constant, the mirror image and the
/// harmonics; neighbouring windows share a sixth of their noise (Harris, Proc. IEEE 66 (1978) 51-83, table I, from memory).
/// </remarks>
internal static class CycleAmplitudes
{
    /// <summary>The share of noise that one amplitude has in common with the next.</summary>
    public const double Shared = 1.0 / 6;

    /// <summary>Gives the amplitudes; number k is centred k + 1 cycles after the first sample.</summary>
    /// <param name="samples">Samples along the line of action.</param>
    /// <param name="frequency">Frequency of the drive, in cycles a sample.</param>
    public static Complex[] Of(ReadOnlySpan<double> samples, double frequency)
    {
        var cycle = 1 / frequency;
        var count = Math.Max(0, (int)Math.Floor((samples.Length - 1) * frequency) - 1);
        var found = new Complex[count];
        var mean = 0.0;
        foreach (var value in samples)
        {
            mean += value / samples.Length;
        }

        for (var k = 0; k < count; k++)
        {
            var middle = (k + 1) * cycle;
            double re = 0, im = 0, weights = 0;
            for (var n = (int)Math.Ceiling(middle - cycle); n <= middle + cycle && n < samples.Length; n++)
            {
                var (sin, cos) = Math.SinCos(2 * Math.PI * frequency * n);
                var weight = 0.5 + 0.5 * Math.Cos(Math.PI * (n - middle) / cycle);
                var value = weight * (samples[n] - mean);
                (re, im, weights) = (re + value * cos, im - value * sin, weights + weight);
            }

            found[k] = new Complex(re, im) * (2 / weights);
        }

        return found;
    }
}
