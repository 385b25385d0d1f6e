namespace StrokeWatch.Sensors.Simulated.Faults;

/// <summary>Material built up on the tray, a liner too many, or a heavier tray.</summary>
internal sealed class TrayHeavier : IFaultKind
{
    /// <inheritdoc/>
    public string Name => "tray-heavier";

    /// <inheritdoc/>
    public string Meaning => "a quarter of the tray's mass is added at 1";

    /// <inheritdoc/>
    public FeederScenario Apply(FeederScenario scenario, double severity) => FaultChange.Physics(
        scenario, physics => physics with { ExtraTrayKilograms = physics.ExtraTrayKilograms + (0.25 * severity * MachineBuild.Masses(scenario).TrayKilograms) });
}
