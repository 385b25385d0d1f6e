using System.Numerics;

namespace StrokeWatch.Measurement.CoastDown;

/// <summary>What the magnet, which stays on after a start, does to the vibration that the start shows: its pull goes with the gap, and so softens and damps it.</summary>
/// <remarks>
/// While the current flows dφ/dt is the voltage less ρφg/g₀ (Faraday's law; ρ is the coil's resistance over its reactance, g the gap, g₀ that at rest). A vibration that closes the gap
/// leaves more flux, a quarter turn late. To first order in ρ, with the flux 1 − cos ωt of a half-wave supply, the pull's part in step with the vibration takes π/8·ρκ off the natural
/// frequency and that against its velocity adds 15/16·ρκ to the damping ratio; with alternating flux −cos ωt, which pulls twice a cycle, the first is nothing and the second 2/3·ρκ.
/// κ is the pull's fundamental over stiffness and gap: the swing of the gap, as a share of it, over the magnification. What ρ is the signal does not tell; coils have 0 to 0.2 (common
/// practice, no source), so the middle is taken off and the rest carried.
/// Beside a constant flux, b times the alternating one (−cos ωt), the flux follows the gap with the slowness of the coil: a vibration at 1 + ε times the drive's frequency beats with the alternating flux at ε, and
/// what comes back at its own frequency is s = κ/4b·(ρ/(ρ + jε) + ρ/(ρ + j(2 + ε))): Re(s)/2 is taken off the frequency, −Im(s)/2 added to the damping ratio, the latter less than nothing below the drive's
/// frequency. b is taken as two thirds and more (common practice, no source); a weaker constant flux is left out.
/// </remarks>
public sealed record RunningMagnet
{
    private const double MostResistance = 0.2;
    private const double UsualSwing = 0.45;
    private const double MostOfDamping = 0.9;
    private const double WeakestBias = 1 / 1.5;

    /// <summary>Gets by how many gaps at rest armature and core close in on each other for a metre of the tray's amplitude, from the gap and the masses; null where the feeder file does not say: 0.45 of the gap then (common practice, no source).</summary>
    public double? GapsPerMetre { get; init; }

    /// <summary>Gets whether the pull comes twice a cycle of the mains.</summary>
    public bool TwiceACycle { get; init; }

    /// <summary>Gets whether the magnet has a constant flux of its own, two thirds of the alternating one at least.</summary>
    public bool Biased { get; init; }

    /// <summary>Takes the magnet's part off a start's reading and carries what is not known of it.</summary>
    /// <param name="reading">The reading, magnet on.</param>
    /// <param name="amplitude">Amplitude of the tray's steady motion, in metres.</param>
    public DecayReading TakenOff(in DecayReading reading, double amplitude)
    {
        var (ratio, damping) = (reading.DriveHz / reading.NaturalFrequencyHz, reading.DampingRatio);
        var stiff = 1 - ratio * ratio;
        var swing = GapsPerMetre is { } gaps ? gaps * amplitude : UsualSwing;
        var pull = swing * Math.Sqrt(stiff * stiff + 4 * damping * damping * ratio * ratio);
        var (softening, lag) = Biased && !TwiceACycle ? BesideConstantFlux(reading.NaturalFrequencyHz / reading.DriveHz - 1)
            : TwiceACycle ? (default, Uniform(MostResistance * 2 / 3)) : (Uniform(MostResistance * Math.PI / 8), Uniform(MostResistance * 15 / 16));

        // No magnet adds more damping than is there.
        var share = pull * Math.Min(1, lag.Mean > 0 ? MostOfDamping * damping / (2 * lag.Mean * pull) : 1);
        var (hertz, added) = (share * softening.Mean * reading.NaturalFrequencyHz, share * lag.Mean);
        var (doubt, dampingDoubt) = (2 * share * softening.Deviation * reading.NaturalFrequencyHz, 2 * share * lag.Deviation);
        return reading with
        {
            NaturalFrequencyHz = reading.NaturalFrequencyHz + hertz,
            DampingRatio = damping - added,
            FrequencyUncertaintyHz = Both(reading.FrequencyUncertaintyHz, doubt),
            DampingUncertainty = Both(reading.DampingUncertainty, dampingDoubt),
            TuningUncertainty = Both(reading.TuningUncertainty, doubt / reading.DriveHz),
            MagnetHz = hertz,
            MagnetDamping = added,
            MagnetHzUncertainty = doubt,
            MagnetDampingUncertainty = dampingDoubt,
        };
    }

    private static (double Mean, double Deviation) Uniform(double most) => (0.5 * most, most / Math.Sqrt(12));

    /// <summary>Gives what a magnet with a flux of its own takes off the natural frequency and adds to the damping ratio, over κ, and their standard uncertainties: ρ from 0 to 0.2 and 1/b from 0 to 1.5, each value as likely.</summary>
    private static ((double Mean, double Deviation) Softening, (double Mean, double Deviation) Lag) BesideConstantFlux(double beat)
    {
        const int Steps = 64;
        double soft = 0, softSquare = 0, lag = 0, lagSquare = 0;
        for (var i = 0; i < Steps; i++)
        {
            var resistance = MostResistance * (i + 0.5) / Steps;
            var back = resistance / 8 * (1 / new Complex(resistance, beat) + 1 / new Complex(resistance, 2 + beat));
            var (s, l) = (back.Real, -back.Imaginary);
            (soft, softSquare, lag, lagSquare) = (soft + s / Steps, softSquare + s * s / Steps, lag + l / Steps, lagSquare + l * l / Steps);
        }

        // 1/b alike from nothing to its most: half of that in the mean, and a third of its square.
        static (double, double) Of(double mean, double square) => (0.5 * mean / WeakestBias, Math.Sqrt(Math.Max(0, square / 3 - mean * mean / 4)) / WeakestBias);
        return (Of(soft, softSquare), Of(lag, lagSquare));
    }

    private static double Both(double a, double b) => Math.Sqrt(a * a + b * b);
}
