namespace StrokeWatch.Page.Tuning;

/// <summary>How far a measurement is.</summary>
/// <param name="LeftSeconds">How long it still takes; null before the first window.</param>
/// <param name="StrokeMetres">The stroke of the newest window; null where it has none.</param>
/// <param name="Verdict">The verdict on it; null where there is none.</param>
/// <param name="Words">What is to be done, and what was heard, the most urgent first.</param>
internal sealed record MeasureProgress(double? LeftSeconds, double? StrokeMetres, string? Verdict, IReadOnlyList<string> Words);
