namespace StrokeWatch.Sensors.Simulated.Faults;

/// <summary>The supply's voltage is too low or too high.</summary>
internal sealed class SupplyWrong(bool high) : IFaultKind
{
    /// <inheritdoc/>
    public string Name => (high ? "supply-high" : "supply-low");

    /// <inheritdoc/>
    public string Meaning => (high ? "the voltage is 12 % above full at 1" : "the voltage is 25 % below full at 1");

    /// <inheritdoc/>
    public FeederScenario Apply(FeederScenario scenario, double severity) => scenario with
    {
        Supply = scenario.Supply with
        {
            Voltage = [.. scenario.Supply.Voltage.Select(point => (point.AtSeconds, point.Percent * (high ? 1 + (0.12 * severity) : 1 - (0.25 * severity))))],
        },
    };
}
