namespace StrokeWatch.Sensors.Simulated.Faults;

/// <summary>A feeder set up on the reverse side of the tuning curve: its natural frequency lies below the drive's, and the magnet was set for the stroke there.</summary>
internal sealed class ReverseSide : IFaultKind
{
    /// <inheritdoc/>
    public string Name => "reverse-side";

    /// <inheritdoc/>
    public string Meaning => "above 0 the tuning ratio is mirrored about 1, and at 1 twice as far off";

    /// <inheritdoc/>
    public bool FromCommissioning => true;

    /// <inheritdoc/>
    public FeederScenario Apply(FeederScenario scenario, double severity) => FaultChange.Physics(
        scenario, physics => physics with { StiffnessFactor = physics.StiffnessFactor * Mirror(scenario, severity) });

    private static double Mirror(FeederScenario scenario, double severity)
    {
        var ratio = MachineBuild.TuningRatio(scenario);
        var mirrored = 1 - (Math.Abs(ratio - 1) * (1 + severity));
        return severity > 0 ? mirrored * mirrored / (ratio * ratio) : 1;
    }
}
