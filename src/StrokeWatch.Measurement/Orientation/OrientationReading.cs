namespace StrokeWatch.Measurement.Orientation;

/// <summary>Where gravity and the tray's motion stand in the sensor's axes, over all windows that count; what could not be told is null.</summary>
public sealed record OrientationReading
{
    /// <summary>Gets the mean of the samples in m/s², which is gravity's reaction where the sensor passes constant acceleration: up where z is up; null with fewer than three axes or no window.</summary>
    public Triple? Mean { get; init; }

    /// <summary>Gets the line of action, the fundamental's major axis, as a unit vector, 0 along an axis that there is not; null with one axis or where the tray never ran.</summary>
    public Triple? Line { get; init; }

    /// <summary>Gets the standard deviation of the line's direction in radians, in any one plane through it: noise, enlarged by a wide ellipse, and the scatter of the windows.</summary>
    public double LineDeviation { get; init; }

    /// <summary>Gets the peak-to-peak motion of the fundamental along the major axis of its ellipse, in metres.</summary>
    public double MajorMetres { get; init; }

    /// <summary>Gets the peak-to-peak motion of the fundamental along the minor axis of its ellipse, in metres; noise is taken off.</summary>
    public double MinorMetres { get; init; }

    /// <summary>Gets the normal of the ellipse's plane as a unit vector; null with fewer than three axes, or where noise hides the minor axis.</summary>
    public Triple? Normal { get; init; }
}
