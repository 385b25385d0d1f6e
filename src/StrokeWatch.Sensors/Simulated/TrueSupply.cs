namespace StrokeWatch.Sensors.Simulated;

/// <summary>What the supply truly was while the feeder ran settled.</summary>
/// <param name="RmsVolts">Root mean square at the channel's place, in volts.</param>
/// <param name="PhaseDegrees">Phase of the displacement's fundamental ahead of the supply's, both as sines, in degrees; of two strokes a cycle against twice the supply's.</param>
public sealed record TrueSupply(double RmsVolts, double PhaseDegrees);
