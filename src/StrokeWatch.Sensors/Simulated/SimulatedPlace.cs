using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Sensors.Simulated;

/// <summary>One of several simulated accelerometers, all of the same kind.</summary>
/// <param name="Place">Where it sits; on the body it feels the body's own motion.</param>
/// <param name="StrokeScale">The stroke there relative to the middle of the tray, for a tray that rocks; 1 on the body.</param>
/// <param name="PhaseDegrees">How far the fundamental there is ahead of the middle of the tray, in degrees; 0 on the body.</param>
/// <param name="Reversed">Whether it is mounted the other way round, its x and z axes reversed.</param>
public sealed record SimulatedPlace(SensorPlace Place, double StrokeScale = 1, double PhaseDegrees = 0, bool Reversed = false);
