using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Measurement.Windows;

namespace StrokeWatch.Outputs.Store;

/// <summary>A window as it was read back.</summary>
/// <param name="Id">Its number; rises with every row and is never used twice.</param>
/// <param name="Feeder">The feeder's name.</param>
/// <param name="Utc">The window's start in UTC.</param>
/// <param name="Reading">What was measured.</param>
/// <param name="Verdict">Where the stroke lay.</param>
public sealed record StoredWindow(long Id, string Feeder, DateTimeOffset Utc, WindowReading Reading, Verdict Verdict);
