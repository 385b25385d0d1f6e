using System.Numerics;

namespace StrokeWatch.Measurement.CoastDown;

/// <summary>Fits the free vibration in a transient's amplitudes with and without a magnet force that dies or builds up, and says what it means.</summary>
internal static class Swing
{
    /// <summary>The gain in likelihood for which a dying or growing force is believed (two variables and a complex column more).</summary>
    private const double ForceGain = 5;
    private const double MostTurn = 0.3;
    private const double Outlier = 9;

    /// <summary>Fits from an instant that is safely after the switching, and again from earlier ones as far as they agree.</summary>
    public static SwingFit? Fit(Complex[] amplitudes, int from, int to, bool steady, int earliest)
    {
        var (decay, turn) = Start(amplitudes, from, to, steady);
        var fit = Best(amplitudes, from, to, steady, decay, turn);
        while (fit is not null && from > earliest && Agrees(fit, amplitudes[from - 1], steady)
            && Best(amplitudes, from - 1, to, steady, fit.At[0], fit.At[1]) is { } earlier)
        {
            (fit, from) = (earlier, from - 1);
        }

        return fit;
    }

    /// <summary>Gives the reading; null where the vibration found cannot be a feeder's.</summary>
    public static DecayReading? Reading(SwingFit fit, double seconds, Drive drive, TransientKind from)
    {
        var (decay, angle) = (fit.At[0], 2 * Math.PI + fit.At[1]);
        var ratio = decay / Math.Sqrt(decay * decay + angle * angle);
        if (Math.Abs(fit.At[1]) > MostTurn * 2 * Math.PI || ratio is < 1e-4 or > 0.3)
        {
            return null;
        }

        var relative = Math.Sqrt(Math.Pow(fit.DecayDeviation / decay, 2) + Math.Pow(fit.TurnDeviation / angle, 2));
        var tuning = fit.CoverageFactor * fit.TurnDeviation / (2 * Math.PI);
        var hertz = drive.Hz * angle / (2 * Math.PI);
        var spread = Math.Sqrt(Math.Pow(drive.Hz * tuning, 2) + Math.Pow(2 * drive.RelativeDeviation * hertz, 2));
        return new(seconds, hertz, ratio, spread)
        {
            TuningUncertainty = tuning,
            DampingUncertainty = fit.CoverageFactor * relative * ratio,
            DriveHz = drive.Hz,
            From = from,
        };
    }

    private static SwingFit? Best(Complex[] amplitudes, int from, int to, bool steady, double decay, double turn)
    {
        var plain = SwingFit.From(new(amplitudes, from, to, steady, force: false), decay, turn);
        var forced = to - from < 8 ? null : SwingFit.From(new(amplitudes, from, to, steady, force: true), plain?.At[0] ?? decay, plain?.At[1] ?? turn);
        return forced is not null && (plain is null || plain.Unlikely - forced.Unlikely > ForceGain) ? forced : plain;
    }

    /// <summary>Takes the factor from one amplitude to the next, over the strong half; with a steady motion, that of their differences.</summary>
    private static (double Decay, double Turn) Start(Complex[] amplitudes, int from, int to, bool steady)
    {
        Complex product = 0;
        var square = 0.0;
        to = Math.Min(to, from + 40);
        for (var k = from; k + (steady ? 2 : 1) < to; k++)
        {
            var (a, b) = steady ? (amplitudes[k + 1] - amplitudes[k], amplitudes[k + 2] - amplitudes[k + 1]) : (amplitudes[k], amplitudes[k + 1]);
            product += Complex.Conjugate(a) * b;
            square += a.Magnitude * a.Magnitude;
        }

        var factor = square > 0 ? product / square : 0.9;
        return (Math.Clamp(-Math.Log(Math.Max(1e-3, factor.Magnitude)), 0.01, 1), Math.Clamp(factor.Phase, -1.5, 1.5));
    }

    /// <summary>Says whether an amplitude before those fitted is what the fit, run back, makes of it.</summary>
    private static bool Agrees(SwingFit fit, Complex amplitude, bool steady)
    {
        var pole = Complex.FromPolarCoordinates(Math.Exp(-fit.At[0]), fit.At[1]);
        var expected = fit.Model.Coefficients[0] / pole;
        if (steady)
        {
            expected += fit.Model.Coefficients[1];
        }

        if (fit.Model.HasForce)
        {
            expected += fit.Model.Coefficients[steady ? 2 : 1] * Math.Exp(fit.At[3]);
        }

        var away = (amplitude - expected).Magnitude;
        return away * away < Outlier * fit.Model.Variance * (2 + Math.Exp(fit.At[2]));
    }
}
