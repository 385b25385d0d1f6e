namespace StrokeWatch.Sensors.Simulated.Faults;

/// <summary>The air gap has closed up: worn leaves, moved core.</summary>
internal sealed class AirGapSmall : IFaultKind
{
    /// <inheritdoc/>
    public string Name => "air-gap-small";

    /// <inheritdoc/>
    public string Meaning => "the gap at rest is 45 % smaller at 1";

    /// <inheritdoc/>
    public FeederScenario Apply(FeederScenario scenario, double severity) => FaultChange.CloseGap(scenario, 1 - (0.45 * severity));
}
