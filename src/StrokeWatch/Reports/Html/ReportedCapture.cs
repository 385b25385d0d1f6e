using StrokeWatch.Measurement.Stroke;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Pipeline;

namespace StrokeWatch.Reports.Html;

/// <summary>One capture for the page.</summary>
/// <param name="Result">The replay.</param>
/// <param name="Window">The window that speaks for it; null where none counts.</param>
/// <param name="Portrait">The portrait of that window; null where it could not be taken.</param>
/// <param name="Repeatable">Whether the capture could be opened a second time.</param>
internal sealed record ReportedCapture(ReplayResult Result, WindowReading? Window, WindowPortrait? Portrait, bool Repeatable);
