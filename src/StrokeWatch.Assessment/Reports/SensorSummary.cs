using StrokeWatch.Measurement.Uncertainty;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Assessment.Reports;

/// <summary>What one of several sensors showed over a capture; lengths in metres, angles in degrees, null where not measured.</summary>
public sealed record SensorSummary
{
    /// <summary>Gets where it sits.</summary>
    public required SensorPlace Place { get; init; }

    /// <summary>Gets whether phases are counted from it: the first sensor on the tray that gives a stroke.</summary>
    public bool Leads { get; init; }

    /// <summary>Gets the median stroke, peak to peak along its own line of action.</summary>
    public double? Stroke { get; init; }

    /// <summary>Gets the expanded uncertainty (k = 2) of the stroke.</summary>
    public double? Uncertainty { get; init; }

    /// <summary>Gets the phase of its fundamental against the sensor that leads, above −180 to 180; positive where it is ahead.</summary>
    public double? PhaseDegrees { get; init; }

    /// <summary>Gets the expanded uncertainty (k = 2) of the phase by noise and scatter; all channels are taken as sampled at the same instants.</summary>
    public double? PhaseUncertaintyDegrees { get; init; }

    /// <summary>Gets its line of action above the x axis in the x-z plane.</summary>
    public double? LineAngleDegrees { get; init; }

    /// <summary>Gets the minor over the major axis of the fundamental's ellipse.</summary>
    public double? EllipseRatio { get; init; }

    /// <summary>Gets how it stands and how the machine moves there; null where it was not tallied.</summary>
    public MountingSummary? Mounting { get; init; }

    /// <summary>Gets where the uncertainty of its stroke comes from; null where it has no stroke.</summary>
    public UncertaintyBudget? Budget { get; init; }

    /// <summary>Gets the number of windows in which its stroke counts.</summary>
    public int WindowsGood { get; init; }

    /// <summary>Gets the number of windows in which it stands at its rail.</summary>
    public int WindowsClipped { get; init; }

    /// <summary>Gets the quality of most of its windows.</summary>
    public WindowQuality Quality { get; init; }

    /// <summary>Gets why it has no stroke; null where it has one.</summary>
    public string? Reason { get; init; }

    /// <summary>Gets why it has no phase; null where it has one.</summary>
    public string? PhaseReason { get; init; }
}
