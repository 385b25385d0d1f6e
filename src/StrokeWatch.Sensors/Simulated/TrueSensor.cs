using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Sensors.Simulated;

/// <summary>The true steady motion of the place of one of several sensors.</summary>
/// <param name="Place">The place.</param>
/// <param name="PeakToPeak">Median over windows of the whole periodic waveform along its line of action.</param>
/// <param name="PhaseDegrees">How far its fundamental is ahead of the first tray sensor's, as the sensor is mounted, above −180 to 180.</param>
/// <param name="LineAngleDegrees">Line of action above the sensor's x axis in its x-z plane.</param>
public sealed record TrueSensor(SensorPlace Place, Length PeakToPeak, double PhaseDegrees, double LineAngleDegrees);
