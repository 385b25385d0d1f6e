namespace StrokeWatch.Sensors.Simulated.Faults;

/// <summary>Dirt, rust or lubricant between the leaves: they rub on each other.</summary>
internal sealed class LeafFriction : IFaultKind
{
    /// <inheritdoc/>
    public string Name => "leaf-friction";

    /// <inheritdoc/>
    public string Meaning => "the damping is three times the healthy one at 1";

    /// <inheritdoc/>
    public FeederScenario Apply(FeederScenario scenario, double severity) => FaultChange.Physics(scenario, physics => physics with { DampingFactor = physics.DampingFactor * (1 + (2 * severity)) });
}
