using StrokeWatch.Machine.Feeder;
using StrokeWatch.Measurement;
using StrokeWatch.Samples.Sources;

namespace StrokeWatch.Pipeline;

/// <summary>Turns a feeder's description and a source's own words into the meter's settings.</summary>
internal static class ChainSettings
{
    /// <summary>Below this share of the bottom of the band the tray counts as standing still.</summary>
    private const double StillShare = 0.05;

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
        Contributions = KnownContributions.For(feeder, source),
    };
}
