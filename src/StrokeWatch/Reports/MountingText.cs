using System.Globalization;
using StrokeWatch.Assessment.Reports;

namespace StrokeWatch.Reports;

/// <summary>Says for a person how a sensor stands.</summary>
internal static class MountingText
{
    /// <summary>Gives the tilt and, where it is known, the drive angle; null where gravity tells no tilt.</summary>
    public static string? Words(MountingSummary? stands)
    {
        if (stands is not { TiltDegrees: { } tilt, TiltUncertaintyDegrees: { } uncertainty } mounting)
        {
            return null;
        }

        var drive = mounting is { DriveDegrees: { } degrees, DriveUncertaintyDegrees: { } own } ? string.Create(CultureInfo.InvariantCulture, $"; line of action {degrees:0.0}° ± {own:0.0}° above the horizontal") : "";
        return string.Create(CultureInfo.InvariantCulture, $"sensor's z axis {tilt:0.0}° ± {uncertainty:0.0}° from the vertical{drive}");
    }

    /// <summary>Gives the line of action in the sensor's own axes, as the motion shows it; null where it was not told.</summary>
    public static string? Line(SensorSummary sensor) => sensor.LineAngleDegrees is not { } angle ? null
        : string.Create(CultureInfo.InvariantCulture, $"line {angle:0.0}°{(sensor.Mounting?.LineUncertaintyDegrees is { } known ? string.Create(CultureInfo.InvariantCulture, $" ± {known:0.0}°") : "")} above its x axis, ellipse ratio {sensor.EllipseRatio ?? 0:0.000}");
}
