using StrokeWatch.Machine.Feeder;
using StrokeWatch.Measurement;
using StrokeWatch.Measurement.Stations;
using StrokeWatch.Measurement.Stroke;
using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Pipeline.Ports;

/// <summary>The settings of several devices as if all their sensors were one source's, for what sums up their readings.</summary>
internal static class JointSettings
{
    /// <summary>What is added to the name of a contribution that comes from a device's own clock: it is no longer one error in all sensors.</summary>
    private const string OfItsClock = "-of-its-own-clock";

    /// <summary>Puts them together; null before any device has begun. A device that has not begun yet is taken as one with the usual assumptions.</summary>
    public static MeterSettings? Of(FeederDescription feeder, IReadOnlyList<MeasuredPort> ports)
    {
        if (ports.Select(port => port.Measurement.Settings).FirstOrDefault(settings => settings is not null) is not { } first)
        {
            return null;
        }

        var axes = new List<Axis>();
        var stations = new List<StationSettings>();
        foreach (var placed in feeder.Sensors)
        {
            var settings = ports.First(port => port.Sensors.Any(sensor => sensor.Place == placed.Place)).Measurement.Settings;
            var known = settings?.Stations.First(station => station.Place == placed.Place);
            var own = known is null ? [Axis.X, Axis.Y, Axis.Z] : settings!.Axes.Skip(known.FirstChannel).Take(known.Channels).ToList();
            stations.Add(new(placed.Place, axes.Count, own.Count, known?.FullScale, Apart(feeder, known?.Contributions ?? new StrokeContributions())));
            axes.AddRange(own);
        }

        return first with
        {
            Axes = axes,
            Stations = stations,
            FullScale = null,
            Contributions = StationContributions.OfMean([.. stations.Where(station => SensorPlaces.IsOnTray(station.Place)).Select(station => station.Contributions)]),
        };
    }

    /// <summary>The mains are one for all; a free drive's frequency is measured by each clock for itself, and so is each clock's jitter its own.</summary>
    private static StrokeContributions Apart(FeederDescription feeder, StrokeContributions contributions) => new(
        [
            .. contributions.Items.Select(item => item.Name == StrokeContributions.TimingJitter || (feeder.Drive.Free && item.Name == StrokeContributions.Frequency)
                ? item with { Name = item.Name + OfItsClock } : item),
        ],
        contributions.SensitivityAssumed);
}
