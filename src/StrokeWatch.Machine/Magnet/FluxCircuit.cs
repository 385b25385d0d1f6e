namespace StrokeWatch.Machine.Magnet;

/// <summary>
/// The flux of a magnet fed by the mains through a thyristor or triac: dφ/dθ = V sin θ − ρ φ g/g₀ while the switch conducts.
/// </summary>
/// <remarks>
/// Faraday's law with a coil resistance R, and an iron circuit whose reluctance is all in the gap g, so that the current goes with φ·g;
/// ρ is R over the reactance at the gap at rest g₀. Flux is in units of the amplitude V√2/(ωN) of a coil without resistance. The switch
/// fires at its angle, and stops when the current comes to zero. The pull is F = F₁(φ₀+φ)² (Maxwell stress, independent of the gap).
/// </remarks>
public sealed class FluxCircuit(MagnetParameters parameters)
{
    private readonly double firing = parameters.FiringDegrees * Math.PI / 180;
    private bool conducting;

    /// <summary>Gets whether the switch conducts, so that the coil has the mains' voltage.</summary>
    public bool Conducting => conducting;

    /// <summary>Gets the flux that the current makes.</summary>
    public double Flux { get; private set; }

    /// <summary>Gets the pull in N at a flux.</summary>
    public double Pull(double flux)
    {
        var total = parameters.BiasFlux + flux;
        return parameters.ForceAtUnitFlux * total * total;
    }

    /// <summary>Goes from one mains phase to the next, both in radians from a rising zero, with the voltage relative to full, the gap relative to rest, and the gate open or shut.</summary>
    /// <returns>The pull in N at the start, the middle and the end.</returns>
    public (double Start, double Middle, double End) Step(double from, double to, double voltage, double gapRatio, bool gate)
    {
        var before = Flux;
        var oneWay = parameters.Kind == DriveKind.HalfWave;
        var period = oneWay ? 2 * Math.PI : Math.PI;
        var zero = Math.Floor(to / period) * period;
        var fires = Math.Max(from, zero + firing);
        var fired = gate && fires < Math.Min(to, zero + Math.PI);
        if (conducting || fired)
        {
            var start = conducting ? from : fires;
            conducting = true;
            var half = parameters.ResistanceRatio * gapRatio * (to - start) / 2;
            var driven = voltage * (Math.Cos(start) - Math.Cos(to));
            Flux = ((before * (1 - half)) + driven) / (1 + half);
            var ended = oneWay ? Flux <= 0 : before * Flux < 0 && !(gate && to >= zero + firing);
            if (ended)
            {
                Flux = 0;
                conducting = false;
            }
        }

        return (Pull(before), Pull((before + Flux) / 2), Pull(Flux));
    }
}
