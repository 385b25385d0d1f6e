using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Measurement.Windows;

namespace StrokeWatch.Assessment.Reports;

/// <summary>A window with its verdict.</summary>
/// <param name="Reading">What was measured.</param>
/// <param name="Verdict">Where it lies.</param>
public readonly record struct AssessedWindow(WindowReading Reading, Verdict Verdict);
