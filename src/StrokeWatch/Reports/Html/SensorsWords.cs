using StrokeWatch.Assessment.Reports;
using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Reports.Html;

/// <summary>The page's English words on several sensors.</summary>
internal static class SensorsWords
{
    public const string Heading = "The sensors beside each other";
    public const string FrontRear = "Front less rear";
    public const string LeftRight = "Left less right";
    public const string TrayBody = "Tray against body";
    public const string Assumed =
        "The stroke that is judged is the mean of the tray's sensors, and over-stroke the largest of them. A positive phase is ahead of the sensor that phases count from; "
        + "near 180° the sensor is mounted the other way round. Tray against body is the extent of the difference of the two motions along the tray's line of action. "
        + "All sensors' axes are taken as parallel, and all channels as sampled at the same instants.";

    public static readonly string[] SensorColumns = ["Sensor", "Stroke, peak to peak", "Phase", "Line of action", "Windows counted"];
    public static readonly string[] SpreadColumns = ["Compared", "Peak to peak", "Of their mean"];

    public static readonly string[] MountingColumns = ["Sensor", "Its z axis from the vertical", "Line of action above the horizontal", "Line of action out of its x-z plane"];

    public static string Tilt(MountingSummary? mounting) => Degrees(mounting?.TiltDegrees, mounting?.TiltUncertaintyDegrees, mounting);

    public static string Drive(MountingSummary? mounting) => Degrees(mounting?.DriveDegrees, mounting?.DriveUncertaintyDegrees, mounting);

    public static string OutOfPlane(MountingSummary? mounting) => Degrees(mounting?.AskewDegrees, mounting?.LineUncertaintyDegrees, mounting);

    public static string Place(SensorSummary sensor) => SensorPlaces.Name(sensor.Place) + (sensor.Leads ? " (phases count from it)" : "");

    public static string Stroke(SensorSummary sensor) => sensor is { Stroke: { } stroke, Uncertainty: { } uncertainty }
        ? $"{Figure.Both(stroke)} ± {Figure.BothUp(uncertainty)}"
        : $"No stroke: {sensor.Reason}";

    public static string Phase(SensorSummary sensor) => sensor.Leads ? "0°"
        : sensor is { PhaseDegrees: { } phase, PhaseUncertaintyDegrees: { } uncertainty } ? $"{Figure.Of(phase, 1)}° ± {Figure.Of(Math.Ceiling(10 * uncertainty) / 10, 1)}°"
        : "not measured";

    public static string Angle(SensorSummary sensor) => sensor.LineAngleDegrees is { } angle ? $"{Figure.Of(angle, 1)}° above x" : "not measured";

    public static string Difference(SpreadSummary spread) => spread is { Difference: { } difference, Uncertainty: { } uncertainty }
        ? $"{Figure.Both(difference)} ± {Figure.BothUp(uncertainty)}"
        : $"Not measured: {spread.Reason}";

    public static string Share(SpreadSummary spread) => spread is { Relative: { } share, RelativeUncertainty: { } uncertainty }
        ? $"{Figure.Of(100 * share, 1)} % ± {Figure.Of(100 * uncertainty, 1)} %"
        : "";

    public static string Relative(RelativeSummary relative) => relative is { Stroke: { } stroke, Uncertainty: { } uncertainty }
        ? $"{Figure.Both(stroke)} ± {Figure.BothUp(uncertainty)}"
        : $"Not measured: {relative.Reason}";

    private static string Degrees(double? angle, double? uncertainty, MountingSummary? mounting) => angle is { } known && uncertainty is { } spread
        ? $"{Figure.Of(known, 1)}° ± {Figure.Of(Math.Ceiling(10 * spread) / 10, 1)}°"
        : $"Not measured: {mounting?.Reason ?? "no window was measured"}";

    public static string PortraitOf(SensorPlace place) => $"Of the sensor {SensorPlaces.Name(place)}.";
}
