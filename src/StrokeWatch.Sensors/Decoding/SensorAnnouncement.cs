using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Sensors.Decoding;

/// <summary>What a sensor says of itself.</summary>
/// <param name="Axes">The axis of each channel, in the order sent.</param>
/// <param name="RateHz">The rate in Hz as the sensor states it; null where it does not.</param>
/// <param name="FullScale">The full scale in m/s², either sign; null where unknown.</param>
/// <param name="Firmware">The name and version of its firmware; empty until it announced it.</param>
public sealed record SensorAnnouncement(IReadOnlyList<Axis> Axes, double? RateHz, double? FullScale, string Firmware);
