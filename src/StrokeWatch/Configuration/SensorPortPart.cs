using StrokeWatch.Configuration.Toml;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Sensors.Lines;
using StrokeWatch.Sensors.Live;
using StrokeWatch.Sensors.Serial;

namespace StrokeWatch.Configuration;

/// <summary>The table [sensor] of the daemon's configuration, or several [[sensor]]: the port, how the device on it speaks, and where its sensors sit.</summary>
internal static class SensorPortPart
{
    private const string ExpectedPlaces = "a list of 1 to 8 places, each once, in the order in which the device sends its sensors, such as [\"front\", \"rear\"],";

    /// <summary>Reads every device; none where one is missing or cannot be made.</summary>
    public static IReadOnlyList<SensorPort> ReadAll(TableReader root)
    {
        var ports = root.IsList("sensor")
            ? root.Rows("sensor", "tables [[sensor]], each with port, protocol and place,", Read, least: 1) ?? []
            : root.Table("sensor") is { } table ? [Alone(table)] : [];
        foreach (var twice in ports.OfType<SensorPort>().GroupBy(port => port.Port.Path).Where(group => group.Count() > 1))
        {
            root.Refuse("sensor", $"the port {twice.Key} stands in several tables [[sensor]]; each port once was expected, with `places` where its device has several sensors");
        }

        return ports.Contains(null) ? [] : [.. ports.Select(port => port!)];
    }

    private static SensorPort? Alone(TableReader table)
    {
        var port = Read(table);
        table.Finish();
        return port;
    }

    private static SensorPort? Read(TableReader table)
    {
        if (table.Has("kind"))
        {
            return ChipPart.Read(table, Axes(table), Places(table));
        }

        var port = table.Text("port", "the path of a serial port such as \"/dev/ttyACM0\"");
        var protocol = table.Choice("protocol", [.. LiveSensors.Protocols]);
        var baud = table.Integer("baud", 300, 12_000_000);
        var rate = table.Number("rate_hz", 100, 100_000, "Hz");
        var full = SensorPart.FullScale(table);
        var channels = Axes(table);
        var lines = Lines(table, protocol);
        var places = Places(table);
        table.Require("port", "the path of a serial port such as \"/dev/ttyACM0\"");
        table.Require("protocol", "\"frames\" or \"lines\"");
        if (port is null || protocol is null || places is null)
        {
            return null;
        }

        var serial = new SerialSettings { Path = port };
        return new(
            baud is { } given ? serial with { BaudRate = given } : serial,
            new() { Protocol = protocol, Axes = channels, Places = places, RateHz = rate, FullScale = full, Lines = lines });
    }

    private static IReadOnlyList<Axis> Axes(TableReader table) =>
        table.Choice("axes", "xyz", "xz", "x", "z") is { } axes ? [.. axes.Select(AxisOf)] : [Axis.X, Axis.Y, Axis.Z];

    /// <summary>Reads where the sensors sit: none where the table says nothing of it, null where it is wrong.</summary>
    private static IReadOnlyList<SensorPlace>? Places(TableReader table)
    {
        var one = table.Choice("place", [.. SensorPlaces.Names]);
        var names = table.Items("places", ExpectedPlaces, 1, 8, names: true);
        if (table.Has("place") && table.Has("places"))
        {
            table.Refuse("places", "`places` stands beside `place`; one of the two was expected");
            return null;
        }

        if (one is not null && SensorPlaces.TryParse(one, out var single))
        {
            return [single];
        }

        if (names is null)
        {
            return table.Has("place") || table.Has("places") ? null : [];
        }

        var places = names.OfType<string>().Where(name => SensorPlaces.Names.Contains(name)).Select(name => SensorPlaces.All[SensorPlaces.Names.ToList().IndexOf(name)]).Distinct().ToList();
        if (places.Count < names.Count)
        {
            table.Refuse("places", $"a name in `places` is no place, or is given twice; {ExpectedPlaces} was expected, of {string.Join(", ", SensorPlaces.Names)}");
            return null;
        }

        return places;
    }

    private static TextLineFormat Lines(TableReader table, string? protocol)
    {
        var unit = table.Choice("unit", "g", "mg", "m_s2", "mm_s2", "counts");
        var perG = table.Number("counts_per_g", 1e-3, 1e9, "counts");
        var time = table.Choice("time", "none", "ms", "us");
        var supply = table.Flag("supply");
        foreach (var key in new[] { "unit", "counts_per_g", "time", "supply" })
        {
            if (protocol == LiveSensors.Frames && table.Has(key))
            {
                table.Refuse(key, $"`{key}` is for protocol \"lines\"; frames say it themselves: nothing was expected here");
            }
        }

        if (protocol == LiveSensors.Lines)
        {
            table.Require("unit", "the unit of the numbers in the lines, such as \"g\",");
        }

        if (unit == "counts")
        {
            table.Require("counts_per_g", "how many counts make 1 g");
        }

        return new()
        {
            Unit = AccelerationUnits.TryParse(unit, out var parsed) ? parsed : AccelerationUnit.G,
            CountScale = Gravity.Standard / (perG ?? 1),
            Supply = supply ?? false,
            Time = time switch { "ms" => TimeColumn.Milliseconds, "us" => TimeColumn.Microseconds, _ => TimeColumn.None },
        };
    }

    private static Axis AxisOf(char letter) => letter switch
    {
        'x' => Axis.X,
        'y' => Axis.Y,
        _ => Axis.Z,
    };
}
