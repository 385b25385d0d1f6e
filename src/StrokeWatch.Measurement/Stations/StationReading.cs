using StrokeWatch.Measurement.Windows;
using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Measurement.Stations;

/// <summary>What one of several sensors showed in one window; what could not be measured is null, with the reason in <see cref="Reading"/>.</summary>
public readonly record struct StationReading
{
    /// <summary>Gets where the sensor sits.</summary>
    public required SensorPlace Place { get; init; }

    /// <summary>Gets what it showed by itself.</summary>
    public required WindowReading Reading { get; init; }

    /// <summary>Gets the phase of its fundamental at the middle of the window, in radians; all sensors' lines point the same way. Null where it cannot be told.</summary>
    public double? PhaseRadians { get; init; }

    /// <summary>Gets the standard deviation (k = 1) that noise gives to the phase, in radians.</summary>
    public double? PhaseNoiseRadians { get; init; }

    /// <summary>Gets its signed part in the relative stroke in metres: the parts add up to the relative stroke of the fundamental. Null where it has none.</summary>
    public double? RelativePartMetres { get; init; }

    /// <summary>Gets whether it is sampled by another clock than the sensor that leads, so that nothing is known of its phase against that one.</summary>
    public bool OtherClock { get; init; }

    /// <summary>Gets whether its stroke counts in this window.</summary>
    public bool Counts => Reading is { Quality: WindowQuality.Good, StrokeMetres: not null };
}
