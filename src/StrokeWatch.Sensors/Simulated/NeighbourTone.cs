namespace StrokeWatch.Sensors.Simulated;

/// <summary>A tone from another machine as the tray passes it on.</summary>
/// <param name="FrequencyHz">Frequency in Hz.</param>
/// <param name="PeakG">Peak acceleration in g.</param>
/// <param name="AngleDegrees">Direction above the x axis in the x-z plane.</param>
/// <param name="SideShare">Motion along y relative to that.</param>
public sealed record NeighbourTone(double FrequencyHz, double PeakG, double AngleDegrees = 90, double SideShare = 0);
