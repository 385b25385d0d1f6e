using StrokeWatch.Machine.Feeder;
using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Configuration;

/// <summary>Brings the sensors that a feeder file lists and the devices that the daemon's configuration names together.</summary>
internal static class PlacedPorts
{
    /// <summary>Says in one line where the two do not agree; null where they do.</summary>
    public static string? Trouble(FeederDescription feeder, IReadOnlyList<SensorPort> ports)
    {
        List<SensorPlace> served = [.. ports.SelectMany(port => port.Sensor.Places)];
        List<SensorPlace> listed = [.. feeder.Sensors.Select(sensor => sensor.Place)];
        if (listed.Count == 0)
        {
            return ports.Count > 1 ? "several tables [[sensor]], but the feeder file lists no sensors; tables [[sensors]] with a place each were expected there"
                : served.Count > 0 ? "a place is given, but the feeder file lists no sensors; tables [[sensors]] with a place each were expected there"
                : null;
        }

        if (ports.FirstOrDefault(port => port.Sensor.Places.Count == 0) is { } silent)
        {
            return $"the feeder file lists several sensors ({Names(listed)}); `place`, or `places` in the order in which the device sends them, was expected for {silent.Port.Path}";
        }

        List<SensorPlace> twice = [.. served.GroupBy(place => place).Where(group => group.Count() > 1).Select(group => group.Key)];
        return twice.Count > 0 ? $"the place {Names(twice)} is given to several ports; each once was expected"
            : served.Except(listed).ToList() is { Count: > 0 } unknown ? $"the place {Names(unknown)} is not among the sensors of the feeder file, which are {Names(listed)}"
            : listed.Except(served).ToList() is { Count: > 0 } missing ? $"no port serves the place {Names(missing)}, which the feeder file lists; a [[sensor]] with it was expected"
            : null;
    }

    /// <summary>Gives the feeder with the full scales that the daemon's configuration gives, which win.</summary>
    public static FeederDescription WithFullScales(FeederDescription feeder, IReadOnlyList<SensorPort> ports)
    {
        SensorDescription Of(SensorDescription sensor, SensorPort? port) => port?.Sensor.FullScale is { } given ? sensor with { FullScale = given } : sensor;
        return feeder with
        {
            Sensor = feeder.Sensors.Count == 0 ? Of(feeder.Sensor, ports[0]) : feeder.Sensor,
            Sensors = [.. feeder.Sensors.Select(placed => placed with { Sensor = Of(placed.Sensor, ports.FirstOrDefault(port => port.Sensor.Places.Contains(placed.Place))) })],
        };
    }

    /// <summary>Gives the devices, a single sensor's with the full scale of the feeder file where the daemon's configuration gives none.</summary>
    public static IReadOnlyList<SensorPort> WithFullScale(IReadOnlyList<SensorPort> ports, FeederDescription feeder) => feeder.Sensors.Count > 0
        ? ports
        : [.. ports.Select(port => port with { Sensor = port.Sensor with { FullScale = port.Sensor.FullScale ?? feeder.Sensor.FullScale } })];

    private static string Names(IEnumerable<SensorPlace> places) => string.Join(", ", places.Select(SensorPlaces.Name));
}
