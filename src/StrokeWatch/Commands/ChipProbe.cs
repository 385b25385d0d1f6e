using StrokeWatch.Sensors.Chips;

namespace StrokeWatch.Commands;

/// <summary>Opens the chip as the daemon would and counts its samples for four seconds.</summary>
internal sealed class ChipProbe(TimeProvider time) : IChipProbe
{
    private const double Seconds = 4;

    /// <inheritdoc/>
    public int? I2cHz(ChipSettings settings) => ChipDevices.Parse(settings.Bus, settings.Device) is { } place ? BusSpeed.OfI2c(place.Bus) : null;

    /// <inheritdoc/>
    public ChipFindings Look(ChipSettings settings) => ChipCheck.Run(settings, time, Seconds);
}
