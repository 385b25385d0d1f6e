namespace StrokeWatch.Assessment.Reports;

/// <summary>The stroke of the tray relative to the body over a capture, in metres; null with a reason where not measured.</summary>
/// <param name="Stroke">Median peak-to-peak extent of x_tray(t) − x_body(t) along the tray's line of action.</param>
/// <param name="Uncertainty">Expanded uncertainty (k = 2).</param>
/// <param name="Reason">Why it was not measured.</param>
public sealed record RelativeSummary(double? Stroke, double? Uncertainty, string? Reason);
