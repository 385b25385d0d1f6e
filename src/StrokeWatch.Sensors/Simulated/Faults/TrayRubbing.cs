namespace StrokeWatch.Sensors.Simulated.Faults;

/// <summary>The tray touches chute or housing in part of its stroke.</summary>
internal sealed class TrayRubbing : IFaultKind
{
    /// <inheritdoc/>
    public string Name => "tray-rubbing";

    /// <inheritdoc/>
    public string Meaning => "at 1 the touch begins at a tenth of the amplitude, a fifth as stiff as the leaves, with a coefficient of friction of 0.6";

    /// <inheritdoc/>
    public FeederScenario Apply(FeederScenario scenario, double severity) => FaultChange.Physics(scenario, physics => physics with
    {
        Rub = severity > 0 ? new((1 - (0.9 * severity)) * FaultChange.Amplitude(scenario), 0.2 * severity, 0.6) : physics.Rub,
    });
}
