namespace StrokeWatch.Sensors.Simulated.Faults;

/// <summary>The controller fires later than it should.</summary>
internal sealed class PhaseCutWrong : IFaultKind
{
    /// <inheritdoc/>
    public string Name => "phase-cut-wrong";

    /// <inheritdoc/>
    public string Meaning => "the firing angle is 70 degrees later at 1";

    /// <inheritdoc/>
    public FeederScenario Apply(FeederScenario scenario, double severity) => scenario with
    {
        Supply = scenario.Supply with { FiringDegrees = Math.Min(170, scenario.Supply.FiringDegrees + (70 * severity)) },
    };
}
