namespace StrokeWatch.Measurement.Stroke;

/// <summary>What unsteady sampling did to the strokes of a source, as the signal itself shows it.</summary>
/// <param name="Seconds">Standard deviation of the sampling instants in seconds; null where none stands out of the residual.</param>
/// <param name="UncertaintySeconds">Standard uncertainty (k = 1) of that in seconds; null likewise.</param>
/// <param name="Correction">Relative amount that was given back to the fundamental, mean over the windows that count; 0 where none was.</param>
/// <param name="Relative">Relative standard uncertainty of the stroke by jitter, given back or not, mean over the windows that count.</param>
public sealed record JitterReading(double? Seconds, double? UncertaintySeconds, double Correction, double Relative);
