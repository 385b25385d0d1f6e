namespace StrokeWatch.Measurement.Stroke;

/// <summary>One contribution to a stroke's uncertainty that the signal itself cannot tell.</summary>
/// <param name="Name">One of the names in <see cref="StrokeContributions"/>.</param>
/// <param name="Relative">Relative standard uncertainty (k = 1) of the stroke, 0 or more.</param>
/// <param name="DegreesOfFreedom">Above 0; infinite where the uncertainty itself is taken as known.</param>
/// <param name="Basis">How it is known, for people.</param>
public sealed record StrokeContribution(string Name, double Relative, double DegreesOfFreedom, string Basis);
