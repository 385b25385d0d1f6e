using StrokeWatch.Machine.Feeder;
using StrokeWatch.Measurement;
using StrokeWatch.Measurement.Stations;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Sources;

namespace StrokeWatch.Pipeline;

/// <summary>Turns a feeder's description and a source's own words into the meter's settings.</summary>
internal static class ChainSettings
{
    /// <summary>Below this share of the bottom of the band the tray counts as standing still.</summary>
    private const double StillShare = 0.05;

    /// <summary>Rounding leaves 1 of its own deviation as a rule; steps that take turns, all at rounding's edge, leave 1.73.</summary>
    private const double RoundingExcess = 1.5;

    /// <summary>Makes the settings.</summary>
    /// <exception cref="CaptureException">The source does not hold the sensors that the feeder file lists.</exception>
    public static MeterSettings For(FeederDescription feeder, SourceInfo source, double rateHz)
    {
        var stations = SensorChannels.Stations(feeder, source);
        return new()
        {
            Axes = source.Axes,
            Stations = stations,
            RateHz = rateHz,
            StampRateHz = 1 / source.TimeStamps?.StepSeconds,
            StampsSpread = source.TimeStamps is { } stamps && stamps.JitterRmsSeconds > Math.Max(0.1 * stamps.StepSeconds, RoundingExcess * stamps.RoundingRmsSeconds),
            StampsKeepTime = feeder.Drive.Free && ClockSource.StampsCorrect(source),
            JitterStated = feeder.Sensor.TimingJitterSeconds is not null,
            NominalHz = feeder.Drive.NominalHz,
            FreeDrive = feeder.Drive.Free,
            LineAngleDegrees = feeder.LineAngleDegrees,
            StillBelowMetres = StillShare * feeder.Band.Low.Metres,
            Supply = source.HasSupply ? new(feeder.Supply?.VoltsPerUnit ?? 1, feeder.Drive.StrokesPerCycle, source.SupplyRail) { Lag = Lag(feeder) } : null,
            Magnet = new() { TwiceACycle = feeder.Drive.StrokesPerCycle == 2, Biased = feeder.Supply?.Biased == true, GapsPerMetre = GapsPerMetre(feeder) },
            FullScale = feeder.Sensor.FullScale ?? source.FullScale,
            Contributions = stations.Count == 0
                ? KnownContributions.For(feeder, source)
                : StationContributions.OfMean([.. stations.Where(station => SensorPlaces.IsOnTray(station.Place)).Select(station => station.Contributions)]),
        };
    }

    /// <summary>Gives the lag of the sensor whose motion leads: of several the first on the tray.</summary>
    private static Measurement.Supply.SensorLag Lag(FeederDescription feeder)
    {
        var sensor = feeder.Sensors.FirstOrDefault(placed => SensorPlaces.IsOnTray(placed.Place))?.Sensor ?? feeder.Sensor;
        return new(sensor.BandwidthHz, sensor.BandwidthPoles);
    }

    /// <summary>Gives by how many gaps the armature closes in for each metre of the tray's amplitude: the body moves against the tray (check-values 6.10: X₁(1 + m₁/m₂)).</summary>
    private static double? GapsPerMetre(FeederDescription feeder) =>
        feeder is { RestGapMetres: { } gap, Masses: { } masses } ? (1 + (masses.TrayKilograms / masses.BodyKilograms)) / gap : null;
}
