namespace StrokeWatch.Assessment.Reports;

/// <summary>A number that can be followed from capture to capture.</summary>
/// <param name="Name">Its name in snake_case, ending in its unit where it has one.</param>
/// <param name="Digits">Decimals that it is written with.</param>
/// <param name="Of">Reads it; null where a capture does not tell it.</param>
public sealed record Feature(string Name, int Digits, Func<CaptureFeatures, double?> Of);
