namespace StrokeWatch.Sensors.Simulated.Faults;

/// <summary>What faults change in the machine model beyond the scenario's own numbers; the defaults change nothing.</summary>
internal sealed record FaultPhysics
{
    /// <summary>Gets the stiffness of all leaves over the healthy one.</summary>
    public double StiffnessFactor { get; init; } = 1;

    /// <summary>Gets the damping in N s/m between tray and body over the healthy one.</summary>
    public double DampingFactor { get; init; } = 1;

    /// <summary>Gets the mass in kg that the tray has gained; negative where it has lost.</summary>
    public double ExtraTrayKilograms { get; init; }

    /// <summary>Gets by how much the line of action has turned, in degrees.</summary>
    public double LineTurnDegrees { get; init; }

    /// <summary>Gets the pull of all magnets over the healthy one.</summary>
    public double PullFactor { get; init; } = 1;

    /// <summary>Gets the gap at rest over the healthy one.</summary>
    public double GapFactor { get; init; } = 1;

    /// <summary>Gets the reluctance of the air gap at rest over that of the paths beside it: what leaks past the gap grows with it. 0 leaves leakage out.</summary>
    public double Leakage { get; init; }

    /// <summary>Gets the share of the stiffness that is lost while a crack stands open.</summary>
    public double OpenCrackShare { get; init; }

    /// <summary>Gets the clamp that slips; null where it holds.</summary>
    public SlippingJoint? Joint { get; init; }

    /// <summary>Gets the part that the tray rubs on; null where it is clear.</summary>
    public RubbingPart? Rub { get; init; }

    /// <summary>Gets the sensor's loose mounting; null where it is tight.</summary>
    public LooseMounting? Loose { get; init; }

    /// <summary>Gets what the sensor's electronics do.</summary>
    public SensorFailure Failure { get; init; }

    /// <summary>Gets the share of time in which they do so.</summary>
    public double FailureShare { get; init; }

    /// <summary>Gives how the flux across the gap, and with its square the pull, grows as the gap closes: (1+λ)/(1+λg/g₀), squared.</summary>
    /// <remarks>Source: two reluctances in parallel, the gap's own going with its length (magnetic circuit textbooks, from memory).</remarks>
    /// <param name="gapRatio">The gap over the healthy one at rest.</param>
    public double PullAt(double gapRatio)
    {
        var share = (1 + Leakage) / (1 + (Leakage * gapRatio));
        return PullFactor * share * share;
    }
}
