namespace StrokeWatch.Sensors.Simulated.Faults;

/// <summary>The sensor's electronics say one value again and again, or nothing but zero.</summary>
internal sealed class SensorFails(bool dead) : IFaultKind
{
    /// <inheritdoc/>
    public string Name => (dead ? "sensor-dead" : "sensor-stuck");

    /// <inheritdoc/>
    public string Meaning => "the share of time in which it does so, in stretches of about a second";

    /// <inheritdoc/>
    public FeederScenario Apply(FeederScenario scenario, double severity) => FaultChange.Physics(
        scenario, physics => physics with { Failure = dead ? SensorFailure.Dead : SensorFailure.Stuck, FailureShare = severity });
}
