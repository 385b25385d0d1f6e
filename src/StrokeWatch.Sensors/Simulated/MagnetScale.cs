namespace StrokeWatch.Sensors.Simulated;

/// <summary>How strong the magnet is.</summary>
/// <param name="ForceAtUnitFlux">Pull in N at unit flux.</param>
/// <param name="PeakPull">Peak pull in N in the steady state at full voltage.</param>
internal readonly record struct MagnetScale(double ForceAtUnitFlux, double PeakPull);
