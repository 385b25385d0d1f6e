using System.Globalization;

namespace StrokeWatch.Sensors.Chips;

/// <summary>A chip on a bus of this board, as it is configured.</summary>
public sealed record ChipSettings
{
    /// <summary>Gets the chip.</summary>
    public required ChipModel Model { get; init; }

    /// <summary>Gets the bus.</summary>
    public required ChipBus Bus { get; init; }

    /// <summary>Gets the device file, such as <c>/dev/spidev0.0</c> or <c>/dev/i2c-1</c>.</summary>
    public required string Device { get; init; }

    /// <summary>Gets the address on an I2C bus.</summary>
    public int Address { get; init; }

    /// <summary>Gets the bus clock in Hz: on SPI what is asked for, on I2C what the board is set to.</summary>
    public required int SpeedHz { get; init; }

    /// <summary>Gets the range.</summary>
    public required ChipRange Range { get; init; }

    /// <summary>Gets the rate.</summary>
    public required ChipRate Rate { get; init; }

    /// <summary>Gets the name for people: the device file, and on I2C the address.</summary>
    public string Name => Bus == ChipBus.Spi ? Device : string.Create(CultureInfo.InvariantCulture, $"{Device} at 0x{Address:X2}");
}
