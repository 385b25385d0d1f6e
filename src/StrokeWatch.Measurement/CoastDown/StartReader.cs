using System.Numerics;

namespace StrokeWatch.Measurement.CoastDown;

/// <summary>Finds the free decay in the beat of a start: what is left of the motion when its steady part is taken off.</summary>
internal static class StartReader
{
    private const int Fewest = 12;
    private const double Settled = 0.02;
    private const double LeastShare = 0.1;
    private const double WorstFrequency = 0.01;
    private const double WorstDamping = 0.35;
    private const string SoftStart = "the stroke came up too slowly (soft start) to set the tray's own vibration off";

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

        if (IsSoft(amplitudes, first, level))
        {
            return new(begin, null, SoftStart);
        }

        if (Swing.Fit(amplitudes, first + 3, End(amplitudes, first + 3, level), steady: true, earliest: first + 1) is not { } fit)
        {
            return new(begin, null, "the stroke at the start follows no free vibration that dies away");
        }

        var (free, steady) = (fit.Model.Coefficients[0].Magnitude, fit.Model.Coefficients[1].Magnitude);
        if (free < LeastShare * steady)
        {
            return new(begin, null, SoftStart);
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

        var omega = 2 * Math.PI * drive.Hz;
        return new(begin, drive.Magnet?.TakenOff(found, steady / (omega * omega)) ?? found, null);
    }

    /// <summary>Says whether the stroke rose steadily, as a ramp of the supply makes it: one that a switch sets off overshoots, or has more than 58 % of its last level half-way in time from 10 to 90 %.</summary>
    private static bool IsSoft(Complex[] amplitudes, int first, double level)
    {
        var low = first;
        while (low < amplitudes.Length && amplitudes[low].Magnitude < 0.1 * level)
        {
            low++;
        }

        var high = low;
        while (high < amplitudes.Length && amplitudes[high].Magnitude < 0.9 * level)
        {
            high++;
        }

        return high - low >= 8 && high < amplitudes.Length && amplitudes[(low + high) / 2].Magnitude < 0.56 * level
            && amplitudes[high..].Max(value => value.Magnitude) < 1.12 * level;
    }

    /// <summary>Gives where the beat has died away, and a little more: long steady motion tells nothing of it.</summary>
    private static int End(Complex[] amplitudes, int from, double level)
    {
        Complex last = 0;
        var tail = amplitudes.AsSpan(3 * amplitudes.Length / 4);
        foreach (var value in tail)
        {
            last += value / tail.Length;
        }

        var end = amplitudes.Length - 1;
        while (end > from && (amplitudes[end] - last).Magnitude < Settled * level)
        {
            end--;
        }

        return Math.Min(amplitudes.Length, Math.Max(end + 10, from + Fewest));
    }

    private static double Level(Complex[] amplitudes)
    {
        var tail = amplitudes[(amplitudes.Length / 2)..].Select(value => value.Magnitude).Order().ToArray();
        return tail.Length > 0 ? tail[tail.Length / 2] : 0;
    }
}
