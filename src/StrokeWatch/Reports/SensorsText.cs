using System.Globalization;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Reports;

/// <summary>Writes what several sensors showed for a person; nothing where the feeder has one sensor.</summary>
internal static class SensorsText
{
    /// <summary>Writes a line a sensor and how it stands below it, then how they differ.</summary>
    public static void Write(TextWriter writer, AssessmentReport report)
    {
        if (report.Sensors is not { } several)
        {
            return;
        }

        void Line(FormattableString text) => writer.WriteLine(text.ToString(CultureInfo.InvariantCulture));
        for (var i = 0; i < several.Sensors.Count; i++)
        {
            var sensor = several.Sensors[i];
            Line($"  {(i == 0 ? "sensors" : ""),-10} {SensorPlaces.Name(sensor.Place),-12} {Words(sensor)}");
            if (MountingText.Line(sensor) is { } line)
            {
                Line($"  {"",-10} {"",-12} {line}");
            }

            if (MountingText.Words(sensor.Mounting) is { } mounting)
            {
                Line($"  {"",-10} {"",-12} {mounting}");
            }

            if (report.Feeder.Sensors[i].Sensor.Calibration is { } calibration)
            {
                Line($"  {"",-10} {"",-12} calibrated: {calibration}, {100 * calibration.ExpandedUncertainty:0.###} % (k = 2)");
            }
        }

        if (several.Sensors.Any(sensor => sensor is { Stroke: not null, Leads: false }))
        {
            Line($"             the stroke above is the mean of the tray's sensors; phases: positive is ahead; parallel axes and one clock are assumed");
        }

        Line($"  front-rear {Words(several.FrontRear)}");
        Line($"  left-right {Words(several.LeftRight)}");
        Line($"  tray-body  {(several.Relative is { Stroke: { } relative, Uncertainty: { } spread } ? $"{Length.FromMetres(relative)} ± {Length.FromMetres(spread).RoundedUp()} of the tray against the body, k = 2" : $"not measured: {several.Relative.Reason}")}");
    }

    private static string Words(SensorSummary sensor)
    {
        if (sensor is not { Stroke: { } stroke, Uncertainty: { } uncertainty })
        {
            return $"no stroke: {sensor.Reason}";
        }

        var phase = sensor.Leads ? "phases count from it"
            : sensor.PhaseDegrees is { } degrees ? string.Create(CultureInfo.InvariantCulture, $"phase {degrees:+0.0;-0.0;0.0}° ± {Math.Ceiling(10 * sensor.PhaseUncertaintyDegrees ?? 0) / 10:0.0}°")
            : $"no phase: {sensor.PhaseReason}";
        return string.Create(CultureInfo.InvariantCulture, $"{Length.FromMetres(stroke)} ± {Length.FromMetres(uncertainty).RoundedUp()}, {phase}, {Counted.Of(sensor.WindowsGood, "window")} good");
    }

    private static string Words(SpreadSummary spread) => spread is { Difference: { } difference, Uncertainty: { } uncertainty, Relative: { } share }
        ? string.Create(CultureInfo.InvariantCulture, $"{Length.FromMetres(difference)} ± {Length.FromMetres(uncertainty)}, {100 * share:+0.0;-0.0;0.0} % of their mean")
        : $"not measured: {spread.Reason}";
}
