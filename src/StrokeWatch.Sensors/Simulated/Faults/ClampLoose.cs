namespace StrokeWatch.Sensors.Simulated.Faults;

/// <summary>A loose spring clamp: part of the stiffness slips once it is strained, so that the frequency falls and damping grows with the amplitude.</summary>
internal sealed class ClampLoose : IFaultKind
{
    /// <inheritdoc/>
    public string Name => "clamp-loose";

    /// <inheritdoc/>
    public string Meaning => "the share of the stiffness that slips, 15 % at 1; it slips from a third of the healthy amplitude on, earlier the looser";

    /// <inheritdoc/>
    public FeederScenario Apply(FeederScenario scenario, double severity) => FaultChange.Physics(scenario, physics => physics with
    {
        Joint = severity > 0 ? new(0.15 * severity, Relative(scenario) * (0.34 - (0.2 * severity))) : physics.Joint,
    });

    private static double Relative(FeederScenario scenario)
    {
        var masses = MachineBuild.Masses(scenario);
        return FaultChange.Amplitude(scenario) * (1 + (masses.TrayKilograms / masses.BodyKilograms));
    }
}
