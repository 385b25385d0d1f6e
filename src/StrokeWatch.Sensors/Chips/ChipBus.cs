namespace StrokeWatch.Sensors.Chips;

/// <summary>The wires between the board and an accelerometer chip.</summary>
public enum ChipBus
{
    /// <summary>Four wires, one chip select each, megahertz.</summary>
    Spi,

    /// <summary>Two wires that several chips share, 100 or 400 kHz.</summary>
    I2c,
}
