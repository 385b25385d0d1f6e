namespace StrokeWatch.Measurement.Stations;

/// <summary>What several sensors showed in the same window.</summary>
/// <param name="Sensors">One reading a sensor, in the order of the settings; filled anew with the next window, so that whoever keeps it copies it.</param>
/// <param name="Relative">The stroke of the tray relative to the body.</param>
public readonly record struct SeveralReading(ReadOnlyMemory<StationReading> Sensors, RelativeReading Relative);
