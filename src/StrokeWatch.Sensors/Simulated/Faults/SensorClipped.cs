namespace StrokeWatch.Sensors.Simulated.Faults;

/// <summary>A sensor of too small a range, or set to it.</summary>
internal sealed class SensorClipped : IFaultKind
{
    /// <inheritdoc/>
    public string Name => "sensor-clipped";

    /// <inheritdoc/>
    public string Meaning => "the range is 1.1 times the healthy peak just above 0 and half of it at 1";

    /// <inheritdoc/>
    public FeederScenario Apply(FeederScenario scenario, double severity) => scenario with
    {
        Sensor = scenario.Sensor with { RangeG = severity > 0 ? Math.Min(scenario.Sensor.RangeG, Peak(scenario) * (1.1 - (0.6 * severity))) : scenario.Sensor.RangeG },
    };

    /// <summary>Gives the healthy peak in g on the axis that moves most; gravity adds to the vertical one.</summary>
    private static double Peak(FeederScenario scenario)
    {
        var omega = 2 * Math.PI * scenario.Feeder.Drive.NominalHz;
        var peak = omega * omega * FaultChange.Amplitude(scenario) / Samples.Quantities.Gravity.Standard;
        var (up, along) = Math.SinCos(MachineBuild.LineAngle(scenario));
        return Math.Max(Math.Abs(along) * peak, 1 + (Math.Abs(up) * peak));
    }
}
