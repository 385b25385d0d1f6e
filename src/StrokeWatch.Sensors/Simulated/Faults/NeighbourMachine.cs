namespace StrokeWatch.Sensors.Simulated.Faults;

/// <summary>A machine beside this one shakes the floor: an unbalanced motor a little slower than its mains, and its second order.</summary>
internal sealed class NeighbourMachine : IFaultKind
{
    /// <inheritdoc/>
    public string Name => "neighbour-machine";

    /// <inheritdoc/>
    public string Meaning => "0.5 g at 1";

    /// <inheritdoc/>
    public FeederScenario Apply(FeederScenario scenario, double severity) => scenario with
    {
        Neighbours = severity > 0 ? [.. scenario.Neighbours, new(Hertz(scenario), 0.5 * severity, 70, 0.3), new(2 * Hertz(scenario), 0.15 * severity, 110, -0.2)] : scenario.Neighbours,
    };

    private static double Hertz(FeederScenario scenario) => 0.485 * scenario.Feeder.Drive.SupplyHz;
}
