using StrokeWatch.Machine.Feeder;
using StrokeWatch.Measurement;
using StrokeWatch.Measurement.Stations;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Sources;

namespace StrokeWatch.Pipeline;

/// <summary>Brings the sensors that a feeder file lists and the channels of a source together.</summary>
internal static class SensorChannels
{
    /// <summary>Adds the feeder's sensors to what is wanted of a capture.</summary>
    public static CaptureOptions Wanted(FeederDescription feeder, CaptureOptions? options = null) =>
        (options ?? new()) with { Sensors = [.. feeder.Sensors.Select(sensor => new SensorChoice(sensor.Place, sensor.Columns))] };

    /// <summary>Gives each sensor's settings; none where the feeder has one sensor.</summary>
    /// <exception cref="CaptureException">The source does not hold the sensors that the feeder file lists, each in one piece.</exception>
    public static IReadOnlyList<StationSettings> Stations(FeederDescription feeder, SourceInfo source)
    {
        var stations = new List<StationSettings>();
        foreach (var placed in feeder.Sensors)
        {
            var channels = Enumerable.Range(0, source.Places.Count).Where(i => source.Places[i] == placed.Place).ToList();
            if (channels.Count is 0 or > 3 || channels[^1] - channels[0] != channels.Count - 1)
            {
                throw new CaptureException(
                    $"the feeder file lists the sensor {SensorPlaces.Name(placed.Place)}, but the samples do not say which channels are its own; replay a capture whose columns are named or listed");
            }

            var contributions = KnownContributions.For(
                feeder with { Sensor = placed.Sensor }, source with { Axes = [.. channels.Select(channel => source.Axes[channel])] });
            stations.Add(new(placed.Place, channels[0], channels.Count, placed.Sensor.FullScale ?? source.FullScale, contributions));
        }

        return stations;
    }

    /// <summary>Gives the settings of one sensor alone, for a closer look at it.</summary>
    public static MeterSettings Only(MeterSettings settings, StationSettings station) => settings with
    {
        Axes = [.. settings.Axes.Skip(station.FirstChannel).Take(station.Channels)],
        Stations = [],
        FullScale = station.FullScale,
        Contributions = station.Contributions,
    };
}
