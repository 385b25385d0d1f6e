namespace StrokeWatch.Assessment.Reports;

/// <summary>A step of the sensor's clock against the mains, from one window to the next.</summary>
/// <param name="AtSeconds">The start of the first window after it, in seconds.</param>
/// <param name="Before">The clock's relative error before it.</param>
/// <param name="After">The clock's relative error after it.</param>
public sealed record ClockStep(double AtSeconds, double Before, double After);
