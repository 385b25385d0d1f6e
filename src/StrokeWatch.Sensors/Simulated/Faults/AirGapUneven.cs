namespace StrokeWatch.Sensors.Simulated.Faults;

/// <summary>The gap is smaller on one side: the pull's resultant passes beside the centre of mass and twists the armature.</summary>
internal sealed class AirGapUneven : IFaultKind
{
    /// <inheritdoc/>
    public string Name => "air-gap-uneven";

    /// <inheritdoc/>
    public string Meaning => "the gap's middle is 15 % smaller at 1, the line of action 4 degrees turned and the path's ellipse 0.12 wider";

    /// <inheritdoc/>
    public FeederScenario Apply(FeederScenario scenario, double severity) =>
        FaultChange.Machine(
            FaultChange.Physics(FaultChange.CloseGap(scenario, 1 - (0.15 * severity)), physics => physics with { LineTurnDegrees = physics.LineTurnDegrees + (4 * severity) }),
            machine => machine with { EllipseRatio = machine.EllipseRatio + (0.12 * severity) });
}
