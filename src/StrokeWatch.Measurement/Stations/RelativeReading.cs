namespace StrokeWatch.Measurement.Stations;

/// <summary>The stroke of the tray relative to the body in one window; null with a reason where it could not be measured.</summary>
/// <param name="Metres">Peak-to-peak extent of x_tray(t) − x_body(t) along the tray's line of action, in metres.</param>
/// <param name="NoiseMetres">The part of its standard uncertainty (k = 1) that noise makes, in metres.</param>
/// <param name="Reason">Why it could not be measured.</param>
public readonly record struct RelativeReading(double? Metres, double? NoiseMetres, string? Reason);
