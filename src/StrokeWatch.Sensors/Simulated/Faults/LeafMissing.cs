namespace StrokeWatch.Sensors.Simulated.Faults;

/// <summary>Leaves gone from one end.</summary>
internal sealed class LeafMissing(bool front) : IFaultKind
{
    /// <inheritdoc/>
    public string Name => (front ? "leaf-missing-front" : "leaf-missing-rear");

    /// <inheritdoc/>
    public string Meaning => "the share of that end's leaves that are gone, counted up to whole leaves";

    /// <inheritdoc/>
    public FeederScenario Apply(FeederScenario scenario, double severity) =>
        FaultChange.Soften(scenario, FaultChange.EndShare(scenario, front) * Gone(scenario, severity), front);

    private double Gone(FeederScenario scenario, double severity)
    {
        var leaves = FaultChange.Leaves(scenario, front);
        return Math.Min(0.9, Math.Ceiling(Math.Max(0, (severity * leaves) - 1e-9)) / leaves);
    }
}
