using StrokeWatch.Configuration.Toml;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Sensors.Lines;
using StrokeWatch.Sensors.Live;
using StrokeWatch.Sensors.Serial;

namespace StrokeWatch.Configuration;

/// <summary>The table [sensor] of the daemon's configuration: the port, and how the sensor speaks.</summary>
internal static class SensorPortPart
{
    /// <summary>Reads the port and the sensor; null where the table is missing or either cannot be made.</summary>
    public static (SerialSettings Port, SensorSettings Sensor)? Read(TableReader? table)
    {
        if (table is null)
        {
            return null;
        }

        var port = table.Text("port", "the path of a serial port such as \"/dev/ttyACM0\"");
        var protocol = table.Choice("protocol", [.. LiveSensors.Protocols]);
        var baud = table.Integer("baud", 300, 12_000_000);
        var rate = table.Number("rate_hz", 100, 100_000, "Hz");
        var full = SensorPart.FullScale(table);
        var axes = table.Choice("axes", "xyz", "xz", "x", "z");
        IReadOnlyList<Axis> channels = axes is null ? [Axis.X, Axis.Y, Axis.Z] : [.. axes.Select(AxisOf)];
        var lines = Lines(table, protocol);
        table.Require("port", "the path of a serial port such as \"/dev/ttyACM0\"");
        table.Require("protocol", "\"frames\" or \"lines\"");
        table.Finish();
        if (port is null || protocol is null)
        {
            return null;
        }

        var serial = new SerialSettings { Path = port };
        return (
            baud is { } given ? serial with { BaudRate = given } : serial,
            new SensorSettings { Protocol = protocol, Axes = channels, RateHz = rate, FullScale = full, Lines = lines });
    }

    private static TextLineFormat Lines(TableReader table, string? protocol)
    {
        var unit = table.Choice("unit", "g", "mg", "m_s2", "mm_s2", "counts");
        var perG = table.Number("counts_per_g", 1e-3, 1e9, "counts");
        var time = table.Choice("time", "none", "ms", "us");
        foreach (var key in new[] { "unit", "counts_per_g", "time" })
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
