using System.Globalization;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Measurement.Orientation;
using StrokeWatch.Measurement.Stations;
using StrokeWatch.Measurement.Stroke;
using StrokeWatch.Measurement.Uncertainty;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Assessment.Reports;

/// <summary>Turns what the meter tallied into the sensor's tilt, the line of action and the drive angle, with their uncertainties.</summary>
internal static class MountingReader
{
    /// <summary>A mean further off than this share of standard gravity is not gravity: the sensor does not pass constant acceleration, or its offset or unit is wrong.</summary>
    private const double GravityTolerance = 0.10;

    /// <summary>Half-width of an axis's zero offset in g where it was not calibrated (common practice, no source).</summary>
    private const double AssumedOffsetG = 0.05;

    /// <summary>Half-width of what a six-position calibration leaves of an axis's offset, in g (common practice, no source).</summary>
    private const double CalibratedOffsetG = 0.005;

    private const string NotAngular = "one axis alone tells no direction";
    private const string NeverRan = "the tray never ran steadily";

    /// <summary>Gets what is said where there are several sensors.</summary>
    public static MountingSummary Several { get; } = new() { Reason = "several sensors, each standing in its own way: tilt and line of action are told for each of them" };

    /// <summary>Sums up for each of several sensors.</summary>
    /// <param name="readings">Where gravity and motion stand in each sensor's axes; none where it was not tallied.</param>
    /// <param name="feeder">The feeder.</param>
    /// <param name="stations">The sensors, in the same order.</param>
    public static IReadOnlyList<MountingSummary> Of(IReadOnlyList<OrientationReading> readings, FeederDescription feeder, IReadOnlyList<StationSettings> stations) =>
    [
        .. readings.Zip(stations, (reading, station) => Of(
            reading,
            feeder with { Sensor = feeder.Sensors.FirstOrDefault(placed => placed.Place == station.Place)?.Sensor ?? new() },
            station.Contributions,
            station.Channels)),
    ];

    /// <summary>Sums up.</summary>
    public static MountingSummary Of(OrientationReading reading, FeederDescription feeder, StrokeContributions contributions, int axes)
    {
        var offset = Distributions.Rectangular(feeder.Sensor.Calibration is { } calibration && calibration.Bias.Any(value => value != 0) ? CalibratedOffsetG : AssumedOffsetG);
        var gravity = reading.Mean is { } mean && Math.Abs(mean.Norm / Gravity.Standard - 1) < GravityTolerance ? reading.Mean : null;
        var summary = new MountingSummary
        {
            Gravity = gravity,
            TiltDegrees = gravity is { } up ? Degrees(Math.Acos(Math.Clamp(up.Z / up.Norm, -1, 1))) : null,
            TiltUncertaintyDegrees = gravity is null ? null : StrokeBudget.CoverageFactor * Degrees(offset),
            Reason = Reason(reading, gravity, axes),
        };
        if (reading.Line is not { } line)
        {
            return summary;
        }

        var deviation = Math.Sqrt(Square(reading.LineDeviation) + Square(Gains(line, contributions)) + Square(Cross(feeder)));
        var along = Math.Sqrt(line.X * line.X + line.Z * line.Z);
        return summary with
        {
            Line = line,
            LineDegrees = along > 0 ? Degrees(Math.Atan2(line.X < 0 ? -line.Z : line.Z, Math.Abs(line.X))) : null,
            AskewDegrees = axes < 3 ? null : Degrees(Math.Asin(Math.Min(1, Math.Abs(line.Y)))),
            LineUncertaintyDegrees = StrokeBudget.CoverageFactor * Degrees(deviation),
            DriveDegrees = gravity is { } vertical ? Degrees(Math.Asin(Math.Min(1, Math.Abs(line.Dot(vertical)) / vertical.Norm))) : null,
            DriveUncertaintyDegrees = gravity is null ? null : StrokeBudget.CoverageFactor * Degrees(Math.Sqrt(Square(deviation) + Square(offset))),
            MajorMetres = reading.MajorMetres,
            MinorMetres = reading.MinorMetres,
            Normal = reading.Normal,
        };
    }

    /// <summary>Gives what unequal gains do to a direction: axes whose sensitivities are off independently by u turn it by √2·u·½ sin 2θ at worst, θ from the nearest axis.</summary>
    private static double Gains(Triple line, StrokeContributions contributions)
    {
        var sensitivity = contributions.Items.FirstOrDefault(item => item.Name == StrokeContributions.Sensitivity)?.Relative ?? 0;
        var largest = Math.Max(Math.Abs(line.X), Math.Max(Math.Abs(line.Y), Math.Abs(line.Z)));
        return Math.Sqrt(2) * sensitivity * largest * Math.Sqrt(Math.Max(0, 1 - largest * largest));
    }

    private static double Cross(FeederDescription feeder) => feeder.Sensor.CrossAxis is { } share ? Distributions.Rectangular(share) : 0;

    private static string? Reason(OrientationReading reading, Triple? gravity, int axes) =>
        axes < 2 ? NotAngular
        : axes < 3 ? reading.Line is null ? NeverRan : "two axes alone tell neither gravity nor a drive angle"
        : reading.Mean is not { } mean ? "no window counts"
        : gravity is null ? string.Create(CultureInfo.InvariantCulture, $"the samples' mean of {mean.Norm:0.00} m/s² is not gravity: the sensor does not pass constant acceleration, or its offset is large")
        : reading.Line is null ? NeverRan : null;

    private static double Degrees(double radians) => radians * 180 / Math.PI;

    private static double Square(double value) => value * value;
}
