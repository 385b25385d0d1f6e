using System.Numerics;

namespace StrokeWatch.Measurement.CoastDown;

/// <summary>Finds the free decay after a stop.</summary>
internal static class CoastDownReader
{
    private const double Steady = 0.93;
    private const int Fewest = 5;
    private const int Beyond = 8;

    /// <summary>Reads the decay; null where the samples show none.</summary>
    /// <param name="samples">The samples from before the stop on.</param>
    /// <param name="drive">The drive.</param>
    public static DecayReading? Read(TransientSamples samples, Drive drive)
    {
        var amplitudes = CycleAmplitudes.Of(samples.Samples, drive.CyclesPerSample);
        if (amplitudes.Length < Fewest + 3)
        {
            return null;
        }

        var (full, floor) = Levels(amplitudes);
        var last = 0;
        for (var k = 0; k < amplitudes.Length; k++)
        {
            last = amplitudes[k].Magnitude > Steady * full ? k : last;
        }

        var from = last + 3;
        var to = from;
        while (to < amplitudes.Length && amplitudes[to].Magnitude > 2.5 * floor)
        {
            to++;
        }

        to = Math.Min(amplitudes.Length, to + Beyond);
        if (to - from < Fewest || Swing.Fit(amplitudes, from, to, steady: false, earliest: last + 1) is not { } fit)
        {
            return null;
        }

        var sound = fit.Model.Coefficients[0].Magnitude > 4 * Math.Sqrt(fit.Model.Variance);
        return sound ? Swing.Reading(fit, samples.StartSeconds + (fit.Model.From + 1) / drive.CyclesPerSample / samples.RateHz, drive, TransientKind.Stop) : null;
    }

    /// <summary>Gives the amplitude before the stop, and what is left at the end where that is rest.</summary>
    private static (double Full, double Floor) Levels(Complex[] amplitudes)
    {
        var sizes = amplitudes.Select(value => value.Magnitude).ToArray();
        var full = 0.0;
        for (var k = 1; k + 1 < sizes.Length; k++)
        {
            full = Math.Max(full, Math.Min(sizes[k], Math.Max(sizes[k - 1], sizes[k + 1])));
        }

        var tail = sizes[(3 * sizes.Length / 4)..];
        Array.Sort(tail);
        var floor = tail[tail.Length / 2];
        return (full, floor < 0.1 * full ? floor : 0);
    }
}
