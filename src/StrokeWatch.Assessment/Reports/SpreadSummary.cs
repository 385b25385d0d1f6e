namespace StrokeWatch.Assessment.Reports;

/// <summary>How the stroke differs between two ends or sides of the tray; lengths in metres, null with a reason where not measured.</summary>
/// <param name="First">Mean stroke at the front, or on the left.</param>
/// <param name="Second">Mean stroke at the rear, or on the right.</param>
/// <param name="Difference">First less second.</param>
/// <param name="Uncertainty">Expanded uncertainty (k = 2) of the difference.</param>
/// <param name="Reason">Why it was not measured.</param>
public sealed record SpreadSummary(double? First, double? Second, double? Difference, double? Uncertainty, string? Reason)
{
    /// <summary>Gets the mean of the two.</summary>
    public double? Mean => 0.5 * (First + Second);

    /// <summary>Gets the difference as a share of the mean.</summary>
    public double? Relative => Mean > 0 ? Difference / Mean : null;

    /// <summary>Gets the expanded uncertainty as a share of the mean.</summary>
    public double? RelativeUncertainty => Mean > 0 ? Uncertainty / Mean : null;
}
