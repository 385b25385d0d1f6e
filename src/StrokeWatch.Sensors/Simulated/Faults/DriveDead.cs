namespace StrokeWatch.Sensors.Simulated.Faults;

/// <summary>One of two drives, the front one, no longer pulls: less pull, and not through the centre of mass.</summary>
internal sealed class DriveDead : IFaultKind
{
    /// <inheritdoc/>
    public string Name => "drive-dead";

    /// <inheritdoc/>
    public string Meaning => "the share of the front drive's pull that is lost, 1 being a dead drive";

    /// <inheritdoc/>
    public FeederScenario Apply(FeederScenario scenario, double severity) =>
        FaultChange.Ends(
            FaultChange.Machine(
                FaultChange.Physics(scenario, physics => physics with { PullFactor = physics.PullFactor * (1 - (0.5 * severity)) }),
                machine => machine with { EllipseRatio = machine.EllipseRatio + (0.08 * severity) }),
            (1 - (0.25 * severity), -8 * severity),
            (1 + (0.25 * severity), 8 * severity));
}
