using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Sensors.Decoding;

/// <summary>What a sensor, or a device with several of them, says of itself.</summary>
/// <param name="Axes">The axis of each channel of a sensor, in the order sent.</param>
/// <param name="RateHz">The rate in Hz as the sensor states it; null where it does not.</param>
/// <param name="FullScale">The full scale in m/s², either sign; null where unknown.</param>
/// <param name="Firmware">The name and version of its firmware; empty until it announced it.</param>
public sealed record SensorAnnouncement(IReadOnlyList<Axis> Axes, double? RateHz, double? FullScale, string Firmware)
{
    /// <summary>Gets the number of sensors, whose channels follow each other; 1 to 8.</summary>
    public int Sensors { get; init; } = 1;

    /// <summary>Gets the full scale of the supply's voltage in volts, or in the unit of its channel, either sign; null where the device takes none, infinite where it does not say.</summary>
    public double? SupplyFullScale { get; init; }
}
