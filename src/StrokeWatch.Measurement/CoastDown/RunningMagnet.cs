namespace StrokeWatch.Measurement.CoastDown;

/// <summary>What the magnet, which stays on after a start, does to the vibration that the start shows: its pull goes with the gap, and so softens and damps it.</summary>
/// <remarks>
/// While the current flows dφ/dt is the voltage less ρφg/g₀ (Faraday's law; ρ is the coil's resistance over its reactance, g the gap, g₀ that at rest). A vibration that closes the gap
/// leaves more flux, a quarter turn late. To first order in ρ, with the flux 1 − cos ωt of a half-wave supply, the pull's part in step with the vibration takes π/8·ρκ off the natural
/// frequency and that against its velocity adds 15/16·ρκ to the damping ratio; with alternating flux −cos ωt, which pulls twice a cycle, the first is nothing and the second 2/3·ρκ.
/// κ is the pull's fundamental over stiffness and gap: the swing of the gap, as a share of it, over the magnification. What ρ is the signal does not tell; coils have 0 to 0.2 (common
/// practice, no source), so the middle is taken off and the rest carried.
/// </remarks>
public sealed record RunningMagnet
{
    private const double MostResistance = 0.2;
    private const double UsualSwing = 0.45;
    private const double MostOfDamping = 0.9;

    /// <summary>Gets by how many gaps at rest armature and core close in on each other for a metre of the tray's amplitude, from the gap and the masses; null where the feeder file does not say: 0.45 of the gap then (common practice, no source).</summary>
    public double? GapsPerMetre { get; init; }

    /// <summary>Gets whether the pull comes twice a cycle of the mains.</summary>
    public bool TwiceACycle { get; init; }

    /// <summary>Takes the magnet's part off a start's reading and carries what is not known of it.</summary>
    /// <param name="reading">The reading, magnet on.</param>
    /// <param name="amplitude">Amplitude of the tray's steady motion, in metres.</param>
    public DecayReading TakenOff(in DecayReading reading, double amplitude)
    {
        var (ratio, damping) = (reading.DriveHz / reading.NaturalFrequencyHz, reading.DampingRatio);
        var stiff = 1 - ratio * ratio;
        var swing = GapsPerMetre is { } gaps ? gaps * amplitude : UsualSwing;
        var pull = swing * Math.Sqrt(stiff * stiff + 4 * damping * damping * ratio * ratio);
        var (softening, lag) = TwiceACycle ? (0.0, 2.0 / 3) : (Math.PI / 8, 15.0 / 16);

        // No magnet adds more damping than is there.
        var most = Math.Min(MostResistance, MostOfDamping * damping / (lag * pull));
        var (hertz, added) = (0.5 * most * softening * pull * reading.NaturalFrequencyHz, 0.5 * most * lag * pull);
        var (doubt, dampingDoubt) = (2 / Math.Sqrt(3) * hertz, 2 / Math.Sqrt(3) * added);
        return reading with
        {
            NaturalFrequencyHz = reading.NaturalFrequencyHz + hertz,
            DampingRatio = damping - added,
            FrequencyUncertaintyHz = Both(reading.FrequencyUncertaintyHz, doubt),
            DampingUncertainty = Both(reading.DampingUncertainty, dampingDoubt),
            TuningUncertainty = Both(reading.TuningUncertainty, doubt / reading.DriveHz),
            MagnetHz = hertz,
            MagnetDamping = added,
        };
    }

    private static double Both(double a, double b) => Math.Sqrt(a * a + b * b);
}
