using StrokeWatch.Configuration.Toml;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Configuration;

/// <summary>The table [sensor] of the daemon's configuration.</summary>
internal static class SensorPortPart
{
    /// <summary>Reads the sensor's settings; null where anything in them is wrong.</summary>
    public static SensorSettings? Read(TableReader? table)
    {
        if (table is null)
        {
            return null;
        }

        var port = table.Text("port", "the path of a serial port such as \"/dev/ttyACM0\"");
        var protocol = table.Choice("protocol", "frames", "lines");
        var baud = table.Integer("baud", 300, 12_000_000) ?? SensorSettings.DefaultBaud;
        var unitName = table.Choice("unit", "g", "mg", "m_s2", "mm_s2", "counts");
        var perG = table.Number("counts_per_g", 1e-3, 1e9, "counts");
        var rate = table.Number("rate_hz", 100, 100_000, "Hz");
        var full = SensorPart.FullScale(table);
        var axes = table.Choice("axes", "xyz", "xz", "x", "z");
        table.Require("port", "the path of a serial port such as \"/dev/ttyACM0\"");
        table.Require("protocol", "\"frames\" or \"lines\"");
        if (protocol == "lines")
        {
            table.Require("unit", "the unit of the numbers in the lines, such as \"g\",");
            table.Require("rate_hz", "the sensor's nominal rate in Hz (lines do not say it)");
        }

        if (unitName == "counts")
        {
            table.Require("counts_per_g", "how many counts make 1 g");
        }

        table.Finish();
        if (port is null || protocol is null)
        {
            return null;
        }

        return new()
        {
            Port = port,
            Protocol = protocol == "lines" ? SensorProtocol.Lines : SensorProtocol.Frames,
            Baud = baud,
            Unit = AccelerationUnits.TryParse(unitName, out var unit) ? unit : null,
            CountsPerG = perG,
            RateHz = rate,
            FullScale = full,
            Axes = axes is null ? [Axis.X, Axis.Y, Axis.Z] : [.. axes.Select(AxisOf)],
        };
    }

    private static Axis AxisOf(char letter) => letter switch
    {
        'x' => Axis.X,
        'y' => Axis.Y,
        _ => Axis.Z,
    };
}
