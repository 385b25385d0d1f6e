namespace StrokeWatch.Sensors.Simulated.Faults;

/// <summary>A tray worn thin, a liner lost, or a lighter tray.</summary>
internal sealed class TrayLighter : IFaultKind
{
    /// <inheritdoc/>
    public string Name => "tray-lighter";

    /// <inheritdoc/>
    public string Meaning => "15 % of the tray's mass is gone at 1";

    /// <inheritdoc/>
    public FeederScenario Apply(FeederScenario scenario, double severity) => FaultChange.Physics(
        scenario, physics => physics with { ExtraTrayKilograms = physics.ExtraTrayKilograms - (0.15 * severity * MachineBuild.Masses(scenario).TrayKilograms) });
}
