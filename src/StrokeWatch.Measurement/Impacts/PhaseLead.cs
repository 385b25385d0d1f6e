namespace StrokeWatch.Measurement.Impacts;

/// <summary>By how much a window's fundamental is ahead of where those before said that it would be.</summary>
/// <param name="OfLast">In radians, within ±π, by the last window.</param>
/// <param name="OfEarlier">The same by the window before that.</param>
/// <param name="Seconds">How long ago the last window was.</param>
/// <param name="Hertz">By how much the drive's frequency is above what it was.</param>
internal readonly record struct PhaseLead(double OfLast, double OfEarlier, double Seconds, double Hertz);
