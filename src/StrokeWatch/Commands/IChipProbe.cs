using StrokeWatch.Sensors.Chips;

namespace StrokeWatch.Commands;

/// <summary>Touches a chip on a bus of the board to see whether the daemon could use it.</summary>
internal interface IChipProbe
{
    /// <summary>Gives the clock in Hz that an I2C bus was started with; null where the system does not tell.</summary>
    int? I2cHz(ChipSettings settings);

    /// <summary>Opens the chip, lets it test itself, and counts its samples for some seconds.</summary>
    ChipFindings Look(ChipSettings settings);
}
