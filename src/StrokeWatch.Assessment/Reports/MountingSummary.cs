using StrokeWatch.Measurement.Orientation;

namespace StrokeWatch.Assessment.Reports;

/// <summary>How the sensor stands on the tray and how the tray moves in space; angles in degrees with expanded uncertainties (k = 2), null where not told.</summary>
public sealed record MountingSummary
{
    /// <summary>Gets the mean that gravity gives the sensor at rest, in m/s² along its axes; null where it is not gravity.</summary>
    public Triple? Gravity { get; init; }

    /// <summary>Gets the angle between the sensor's z axis and the vertical, 0 to 180.</summary>
    public double? TiltDegrees { get; init; }

    /// <summary>Gets the uncertainty of the tilt.</summary>
    public double? TiltUncertaintyDegrees { get; init; }

    /// <summary>Gets the line of action as the motion shows it, whatever the feeder file gives: a unit vector in the sensor's axes.</summary>
    public Triple? Line { get; init; }

    /// <summary>Gets the measured line's angle above the x axis in the x-z plane, from -90 to 90.</summary>
    public double? LineDegrees { get; init; }

    /// <summary>Gets the measured line's angle out of the x-z plane, 0 to 90; null with fewer than three axes.</summary>
    public double? AskewDegrees { get; init; }

    /// <summary>Gets the uncertainty of the line's direction.</summary>
    public double? LineUncertaintyDegrees { get; init; }

    /// <summary>Gets the angle between the line of action and the horizontal plane, 0 to 90, however the sensor is turned.</summary>
    public double? DriveDegrees { get; init; }

    /// <summary>Gets the uncertainty of the drive angle.</summary>
    public double? DriveUncertaintyDegrees { get; init; }

    /// <summary>Gets the fundamental's peak-to-peak motion along the major axis of its ellipse, in metres.</summary>
    public double? MajorMetres { get; init; }

    /// <summary>Gets the fundamental's peak-to-peak motion along the minor axis of its ellipse, in metres.</summary>
    public double? MinorMetres { get; init; }

    /// <summary>Gets the normal of the ellipse's plane, a unit vector in the sensor's axes; null where the ellipse is a line.</summary>
    public Triple? Normal { get; init; }

    /// <summary>Gets why something is null; null where nothing is.</summary>
    public string? Reason { get; init; }
}
