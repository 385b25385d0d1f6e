using StrokeWatch.Machine.Feeder;
using StrokeWatch.Measurement;
using StrokeWatch.Measurement.Stroke;
using StrokeWatch.Samples.Sources;

namespace StrokeWatch.Pipeline;

/// <summary>Turns a feeder's description and a source's own words into the meter's settings.</summary>
internal static class ChainSettings
{
    /// <summary>Below this share of the bottom of the band the tray counts as standing still.</summary>
    private const double StillShare = 0.05;

    private static readonly double Rectangular = Math.Sqrt(3);

    /// <summary>Half-width of a sensor clock's tolerance where nothing corrects it (common practice, no source).</summary>
    private const double AssumedClockTolerance = 0.01;

    /// <summary>Relative standard uncertainty of a rate from a host's time stamps.</summary>
    private const double TimestampClock = 1e-4;

    /// <summary>Half-width of an unknown misalignment of a single axis, in degrees.</summary>
    private const double SingleAxisDegrees = 5;

    /// <summary>Makes the settings.</summary>
    public static MeterSettings For(FeederDescription feeder, SourceInfo source, double rateHz) => new()
    {
        Axes = source.Axes,
        RateHz = rateHz,
        NominalHz = feeder.Drive.NominalHz,
        FreeDrive = feeder.Drive.Free,
        LineAngleDegrees = feeder.LineAngleDegrees,
        StillBelowMetres = StillShare * feeder.Band.Low.Metres,
        FullScale = feeder.Sensor.FullScale ?? source.FullScale,
        Contributions = Contributions(feeder, source),
    };

    private static StrokeContributions Contributions(FeederDescription feeder, SourceInfo source)
    {
        var assumed = new StrokeContributions();
        var clock = source.RateFrom == RateOrigin.Timestamps ? TimestampClock : AssumedClockTolerance / Rectangular;
        return assumed with
        {
            Sensitivity = feeder.Sensor switch
            {
                { CalibrationUncertainty: { } expanded } => expanded / 2,
                { SensitivityTolerance: { } tolerance } => tolerance / Rectangular,
                _ => assumed.Sensitivity,
            },
            SensitivityAssumed = feeder.Sensor is { CalibrationUncertainty: null, SensitivityTolerance: null },
            Frequency = feeder.Drive.Free ? 2 * clock : assumed.Frequency,
            Alignment = source.Axes.Count == 1 && feeder.LineAngleDegrees is null
                ? (1 - Math.Cos(SingleAxisDegrees * Math.PI / 180)) / Rectangular
                : assumed.Alignment,
        };
    }
}
