namespace StrokeWatch.Measurement.Supply;

/// <summary>What the meter must know of a channel that holds the supply's voltage.</summary>
/// <param name="VoltsPerUnit">Volts for one unit of the channel.</param>
/// <param name="StrokesPerCycle">Strokes a cycle of the supply, 1 or 2.</param>
/// <param name="Rail">Size in the channel's unit from which a value stands at the end of its range; null where that has no end.</param>
public sealed record SupplySettings(double VoltsPerUnit, int StrokesPerCycle, double? Rail)
{
    /// <summary>Gets by how much the accelerometer's own filter delays the motion; the voltage is taken as undelayed.</summary>
    public SensorLag Lag { get; init; }
}
