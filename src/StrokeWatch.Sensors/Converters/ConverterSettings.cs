namespace StrokeWatch.Sensors.Converters;

/// <summary>How a converter that takes the supply's voltage is connected.</summary>
public sealed record ConverterSettings
{
    /// <summary>Gets the converter.</summary>
    public required ConverterModel Model { get; init; }

    /// <summary>Gets the device file of its bus.</summary>
    public required string Device { get; init; }

    /// <summary>Gets its address on I2C.</summary>
    public int Address { get; init; } = 0x48;

    /// <summary>Gets the clock of its bus in Hz.</summary>
    public required int SpeedHz { get; init; }

    /// <summary>Gets the input, from 0 on.</summary>
    public int Channel { get; init; }

    /// <summary>Gets the full scale in V: the reference of an MCP, the range of an ADS.</summary>
    public required double RangeVolts { get; init; }

    /// <summary>Gets how often it is read, in Hz.</summary>
    public required double RateHz { get; init; }

    /// <summary>Gets the mains frequency in Hz.</summary>
    public required double MainsHz { get; init; }

    /// <summary>Gets the name for people.</summary>
    public string Name => $"{Model.Name} on {Device}, input {Channel}";
}
