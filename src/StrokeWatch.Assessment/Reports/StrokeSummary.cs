using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Measurement.Uncertainty;

namespace StrokeWatch.Assessment.Reports;

/// <summary>The stroke of a whole capture, from the windows in which the feeder ran steadily; lengths in metres, null where not measured.</summary>
/// <param name="Stroke">Median peak-to-peak stroke of the whole waveform along the line of action.</param>
/// <param name="Fundamental">Median peak-to-peak stroke of the fundamental alone.</param>
/// <param name="Least">Smallest stroke of a window.</param>
/// <param name="Most">Largest stroke of a window.</param>
/// <param name="Uncertainty">Expanded uncertainty (k = 2) of the median.</param>
/// <param name="LineAngleDegrees">Line of action above the x axis in the x-z plane.</param>
/// <param name="EllipseRatio">Minor over major axis of the fundamental's ellipse.</param>
/// <param name="Verdict">Where the stroke lies.</param>
/// <param name="Reason">Why there is no stroke, or why the verdict is not that of the stroke itself; null otherwise.</param>
public sealed record StrokeSummary(
    double? Stroke, double? Fundamental, double? Least, double? Most, double? Uncertainty,
    double? LineAngleDegrees, double? EllipseRatio, Verdict Verdict, string? Reason)
{
    /// <summary>Gets the uncertainty budget of the median, in metres; null where there is no stroke.</summary>
    public UncertaintyBudget? Budget { get; init; }

    /// <summary>Gets the most that any place on the tray moves, where the stroke is the mean of several sensors; null otherwise.</summary>
    public double? Peak { get; init; }

    /// <summary>Gets the least that the tray moves, median over the windows in which the sensor clips or may clip; null where it never does or nothing follows from it.</summary>
    public double? AtLeast { get; init; }
}
