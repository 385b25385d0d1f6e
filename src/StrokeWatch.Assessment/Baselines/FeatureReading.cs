namespace StrokeWatch.Assessment.Baselines;

/// <summary>One feature as a capture or an hour showed it.</summary>
/// <param name="Name">The feature's name, such as <c>stroke_mm</c>.</param>
/// <param name="Value">Its value.</param>
/// <param name="OwnUncertainty">Its standard uncertainty (k = 1) by what differs from reading to reading; 0 where not known.</param>
public readonly record struct FeatureReading(string Name, double Value, double OwnUncertainty = 0);
