namespace StrokeWatch.Sensors.Simulated.Faults;

/// <summary>A crack in one leaf of one end: part of its stiffness is gone.</summary>
internal sealed class LeafCracked(bool front) : IFaultKind
{
    /// <inheritdoc/>
    public string Name => (front ? "leaf-cracked-front" : "leaf-cracked-rear");

    /// <inheritdoc/>
    public string Meaning => "the share of one leaf's stiffness that is lost, 1 being the whole leaf";

    /// <inheritdoc/>
    public FeederScenario Apply(FeederScenario scenario, double severity) =>
        FaultChange.Soften(scenario, severity * FaultChange.EndShare(scenario, front) / FaultChange.Leaves(scenario, front), front);
}
