using System.Numerics;

namespace StrokeWatch.Measurement.CoastDown;

/// <summary>Finds the free decay in the beat of a start: what is left of the motion when its steady part is taken off.</summary>
internal static class StartReader
{
    private const int Fewest = 12;
    private const double LeastShare = 0.1;
    private const double WorstFrequency = 0.01;
    private const double WorstDamping = 0.35;

    /// <summary>Reads the start.</summary>
    /// <param name="samples">The samples from before the start on.</param>
    /// <param name="drive">The drive.</param>
    public static StartReading Read(TransientSamples samples, Drive drive)
    {
        var amplitudes = CycleAmplitudes.Of(samples.Samples, drive.CyclesPerSample);
        var level = Level(amplitudes);
        var first = 0;
        while (first < amplitudes.Length && amplitudes[first].Magnitude < 0.4 * level)
        {
            first++;
        }

        while (first > 0 && amplitudes[first - 1].Magnitude > 0.02 * level)
        {
            first--;
        }

        double At(int k) => samples.StartSeconds + (k + 1) / drive.CyclesPerSample / samples.RateHz;
        var begin = At(first);
        if (amplitudes.Length - first < Fewest + 3)
        {
            return new(begin, null, "the feeder ran too short a time after its start");
        }

        if (Swing.Fit(amplitudes, first + 3, amplitudes.Length, steady: true, earliest: first + 1) is not { } fit)
        {
            return new(begin, null, "the stroke at the start follows no free vibration that dies away");
        }

        var (free, steady) = (fit.Model.Coefficients[0].Magnitude, fit.Model.Coefficients[1].Magnitude);
        if (free < LeastShare * steady)
        {
            return new(begin, null, "the stroke came up too slowly (soft start) to set the tray's own vibration off");
        }

        var reading = Swing.Reading(fit, At(fit.Model.From), drive, TransientKind.Start);
        if (reading is not { } found)
        {
            return new(begin, null, "the stroke at the start follows no free vibration that dies away");
        }

        if (found.FrequencyUncertaintyHz > WorstFrequency * found.NaturalFrequencyHz || found.DampingUncertainty > WorstDamping * found.DampingRatio)
        {
            var near = Math.Abs(fit.At[1]) < 2 * fit.At[0];
            return new(begin, null, near
                ? "the natural frequency lies so near the drive's that no beat is seen; a coast-down would tell it"
                : "other vibration hides the tray's own in the start");
        }

        return new(begin, found, null);
    }

    private static double Level(Complex[] amplitudes)
    {
        var tail = amplitudes[(amplitudes.Length / 2)..].Select(value => value.Magnitude).Order().ToArray();
        return tail.Length > 0 ? tail[tail.Length / 2] : 0;
    }
}
