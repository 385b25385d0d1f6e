namespace StrokeWatch.Sensors.Simulated.Faults;

/// <summary>Two drives that pull at different times: their pulls add as phasors, their difference rocks the tray.</summary>
internal sealed class DriveOutOfPhase : IFaultKind
{
    /// <inheritdoc/>
    public string Name => "drive-out-of-phase";

    /// <inheritdoc/>
    public string Meaning => "the angle between the two drives, 120 degrees at 1";

    /// <inheritdoc/>
    public FeederScenario Apply(FeederScenario scenario, double severity) =>
        FaultChange.Ends(
            FaultChange.Machine(
                FaultChange.Physics(scenario, physics => physics with { PullFactor = physics.PullFactor * Math.Cos(Half(severity)) }),
                machine => machine with { EllipseRatio = machine.EllipseRatio + (0.1 * Math.Sin(Half(severity))) }),
            (1, Rocking(severity)),
            (1, -Rocking(severity)));

    private static double Half(double severity) => 60 * severity * Math.PI / 180;

    /// <summary>Gives the phase of one end's motion: half the pulls' difference, which meets the tray's inertia against rocking, over their mean.</summary>
    private static double Rocking(double severity) => Math.Atan(0.5 * Math.Tan(Half(severity))) * 180 / Math.PI;
}
