using System.Globalization;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Measurement.Stroke;
using StrokeWatch.Measurement.Uncertainty;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Sources;

namespace StrokeWatch.Pipeline;

/// <summary>Names what contributes to a stroke's uncertainty beside the signal, from the feeder's description and the source's own words.</summary>
internal static class KnownContributions
{
    /// <summary>The least relative standard uncertainty of a rate from a host's time stamps, whatever their span: its crystal's (common practice, no source).</summary>
    private const double HostClock = 5e-5;

    /// <summary>Half-width of an unknown misalignment of a single axis, in degrees.</summary>
    private const double SingleAxisDegrees = 5;

    /// <summary>Half-width of a given line of action's angle, in degrees.</summary>
    private const double GivenLineDegrees = 1;

    /// <summary>Half-width of the angle to which three axes tell the line of action, in degrees: equal gains within 2 % and little noise.</summary>
    private const double FoundLineDegrees = 1;

    /// <summary>Makes the list.</summary>
    public static StrokeContributions For(FeederDescription feeder, SourceInfo source)
    {
        var sensor = feeder.Sensor;
        var assumed = new StrokeContributions();
        StrokeContribution Assumed(string name) => assumed.Items.Single(item => item.Name == name);
        List<StrokeContribution> items =
        [
            Sensitivity(sensor) ?? Assumed(StrokeContributions.Sensitivity),
            feeder.Drive.Free ? FreeDrive(source) : Assumed(StrokeContributions.Frequency),
            Alignment(feeder, source) ?? Assumed(StrokeContributions.Alignment),
        ];
        if (CrossAxis(feeder, source) is { } cross)
        {
            items.Add(cross);
        }

        items.Add(Jitter(feeder));
        return new(items, sensor is { Calibration: null, CalibrationUncertainty: null, SensitivityTolerance: null });
    }

    private static StrokeContribution Known(string name, double relative, string basis) => new(name, relative, double.PositiveInfinity, basis);

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);

    private static double Sin(double degrees) => Math.Sin(degrees * Math.PI / 180);

    private static double LostCosine(double degrees) => 1 - Math.Cos(degrees * Math.PI / 180);

    private static StrokeContribution? Sensitivity(SensorDescription sensor) => sensor switch
    {
        { Calibration: { } own } => new(
            StrokeContributions.Sensitivity, Distributions.Normal(own.ExpandedUncertainty, 2), own.DegreesOfFreedom,
            Text($"calibrated on {own.Date:yyyy-MM-dd} ({own.Method})")),
        { CalibrationUncertainty: { } expanded } => Known(
            StrokeContributions.Sensitivity, Distributions.Normal(expanded, 2), Text($"calibrated, {100 * expanded:0.###} % (k = 2) by the feeder file")),
        { SensitivityTolerance: { } tolerance } => Known(
            StrokeContributions.Sensitivity, Distributions.Rectangular(tolerance), Text($"datasheet tolerance {100 * tolerance:0.###} %, rectangular")),
        _ => null,
    };

    private static StrokeContribution FreeDrive(SourceInfo source) => source.TimeStamps is { StepUncertainty: < ClockSource.SensorClock and var spread }
        && (source.RateFrom == RateOrigin.Timestamps || ClockSource.StampsCorrect(source))
        ? Known(
            StrokeContributions.Frequency, 2 * Math.Max(HostClock, spread),
            spread > HostClock
                ? Text($"measured by the host's time stamps: {1e6 * spread:0} ppm by their scatter over their span, counted twice")
                : "measured by the host's time stamps: 50 ppm of the host's own clock (common practice, no source), counted twice")
        : Known(
            StrokeContributions.Frequency, 2 * Distributions.Rectangular(ClockSource.SensorClock),
            "measured by the sensor's own clock, assumed within 1 %, rectangular, counted twice (common practice, no source)");

    private static StrokeContribution? Alignment(FeederDescription feeder, SourceInfo source) => (source.Axes, feeder.LineAngleDegrees) switch
    {
        ({ Count: 1 }, null) => Known(
            StrokeContributions.Alignment, Distributions.Rectangular(LostCosine(SingleAxisDegrees)), "a single axis, taken within 5° of the line, rectangular (common practice, no source)"),
        ({ Count: 1 }, _) when Square(feeder, source) is { } tangent && double.IsFinite(tangent) => Known(
            StrokeContributions.Alignment, Distributions.Rectangular(tangent * Sin(GivenLineDegrees) + LostCosine(GivenLineDegrees)),
            "a single axis, the line's angle given, taken within 1°, rectangular (common practice, no source)"),
        ({ Count: 3 }, null) => Known(
            StrokeContributions.Alignment, Distributions.Rectangular(LostCosine(FoundLineDegrees)), "line of action found from three axes, taken within 1°: lost in second order only, rectangular"),
        (_, { }) => Known(StrokeContributions.Alignment, 1e-3, "line of action given in the feeder file, 0.1 % (common practice, no source)"),
        _ => null,
    };

    /// <summary>Gives the tangent of the angle between a single axis and the given line.</summary>
    private static double? Square(FeederDescription feeder, SourceInfo source)
    {
        if (feeder.LineAngleDegrees is not { } degrees)
        {
            return null;
        }

        var along = Math.Abs(source.Axes[0] switch { Axis.X => Sin(90 - degrees), Axis.Z => Sin(degrees), _ => 0 });
        return Math.Sqrt(Math.Max(0, 1 - along * along)) / along;
    }

    private static StrokeContribution? CrossAxis(FeederDescription feeder, SourceInfo source)
    {
        var sensor = feeder.Sensor;
        var (half, basis) = sensor switch
        {
            { CrossAxis: { } given } => (given, Text($"datasheet cross-axis sensitivity {100 * given:0.###} %, rectangular")),
            { Calibration: { LargestCrossGain: > 0 and var share } } when source.Axes.Count < 3 =>
                (share, Text($"axes not captured, of which {100 * share:0.###} % is heard at most by the calibration, rectangular")),
            _ => (-1, ""),
        };
        if (half < 0)
        {
            return null;
        }

        // Along a unit vector d the errors e of a gain's other places make Σ dᵢdⱼeᵢⱼ: for n axes at most √((n − 1)/n) of one of them.
        var axes = source.Axes.Count;
        var reach = axes > 1 ? Math.Sqrt((axes - 1.0) / axes) : Square(feeder, source) ?? Sin(SingleAxisDegrees);
        return double.IsFinite(reach) ? Known(StrokeContributions.CrossAxis, Distributions.Rectangular(half) * reach, basis) : null;
    }

    private static StrokeContribution Jitter(FeederDescription feeder) => feeder.Sensor.TimingJitterSeconds is { } jitter
        ? Known(
            StrokeContributions.TimingJitter, Distributions.Rectangular(1 - TimingJitter.Share(feeder.Drive.NominalHz, jitter)),
            Text($"{1e6 * jitter:0.###} µs jitter by the feeder file: its loss of amplitude, rectangular"))
        : Known(StrokeContributions.TimingJitter, 0, "samples taken as evenly timed");
}
