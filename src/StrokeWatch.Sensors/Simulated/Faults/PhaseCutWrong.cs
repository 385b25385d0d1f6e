namespace StrokeWatch.Sensors.Simulated.Faults;

/// <summary>The controller fires later than it should.</summary>
internal sealed class PhaseCutWrong : IFaultKind
{
    /// <inheritdoc/>
    public string Name => "phase-cut-wrong";

    /// <inheritdoc/>
    public string Meaning => "the firing angle is 95 degrees just above 0, for before 90 an inductive coil feels nothing of it, and 110 degrees at 1";

    /// <inheritdoc/>
    public FeederScenario Apply(FeederScenario scenario, double severity) => scenario with
    {
        Supply = scenario.Supply with { FiringDegrees = severity > 0 ? Math.Max(scenario.Supply.FiringDegrees, 95 + (15 * severity)) : scenario.Supply.FiringDegrees },
    };
}
