namespace StrokeWatch.Sensors.Simulated.Faults;

/// <summary>The tray moves more at one end than at the other: a load or a leaf stack that does not balance.</summary>
internal sealed class StrokeUneven : IFaultKind
{
    /// <inheritdoc/>
    public string Name => "stroke-uneven";

    /// <inheritdoc/>
    public string Meaning => "at 1 the front moves 20 % more and the rear 20 % less than the middle, the line of action is turned by 3 degrees and the path an ellipse of 0.1 more";

    /// <inheritdoc/>
    public FeederScenario Apply(FeederScenario scenario, double severity) =>
        FaultChange.Ends(
            FaultChange.Machine(
                FaultChange.Physics(scenario, physics => physics with { LineTurnDegrees = physics.LineTurnDegrees + (3 * severity) }),
                machine => machine with { EllipseRatio = machine.EllipseRatio + (0.1 * severity) }),
            (1 + (0.2 * severity), 4 * severity),
            (1 - (0.2 * severity), -4 * severity));
}
