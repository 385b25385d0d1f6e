namespace StrokeWatch.Session;

/// <summary>A measurement that is to be made before the session goes on.</summary>
/// <param name="Capture">The capture to read; null for the live sensor.</param>
internal readonly record struct MeasurementWish(string? Capture);
