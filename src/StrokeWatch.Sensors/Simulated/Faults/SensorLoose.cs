namespace StrokeWatch.Sensors.Simulated.Faults;

/// <summary>The sensor's mounting is loose: it rings on its foot and rattles against its screw.</summary>
internal sealed class SensorLoose : IFaultKind
{
    /// <inheritdoc/>
    public string Name => "sensor-loose";

    /// <inheritdoc/>
    public string Meaning => "the sensor on its foot rings at 900 Hz just above 0 and at 350 Hz at 1; from 0.3 on it lifts, by 40 um at 1";

    /// <inheritdoc/>
    public FeederScenario Apply(FeederScenario scenario, double severity) => FaultChange.Physics(scenario, physics => physics with
    {
        Loose = severity > 0 ? new(900 - (550 * severity), 40e-6 * Math.Max(0, severity - 0.3) / 0.7) : physics.Loose,
    });
}
