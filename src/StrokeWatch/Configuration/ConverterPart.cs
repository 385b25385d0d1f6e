using System.Globalization;
using StrokeWatch.Configuration.Toml;
using StrokeWatch.Sensors.Chips;
using StrokeWatch.Sensors.Converters;

namespace StrokeWatch.Configuration;

/// <summary>The table [supply] of the daemon's configuration: a converter on the board's own bus that takes the supply's voltage.</summary>
internal static class ConverterPart
{
    private const double UsualACycle = 16;
    private const int LeastBusHz = 10_000, UsualI2cHz = 100_000;

    /// <summary>Reads the table; null where it is not there, or is wrong.</summary>
    /// <param name="root">The configuration.</param>
    /// <param name="mainsHz">The mains frequency of the feeder in Hz; null where that file is wrong itself.</param>
    public static ConverterSettings? Read(TableReader root, double? mainsHz)
    {
        if (root.Table("supply") is not { } table)
        {
            return null;
        }

        var kind = table.Choice("converter", [.. ConverterModel.All.Select(model => model.Kind)]);
        var device = table.Text("device", "the path of a bus such as \"/dev/spidev0.1\" or \"/dev/i2c-1\"");
        var address = table.Integer("address", 0x08, 0x77);
        var speed = table.Integer("speed_hz", LeastBusHz, 10_000_000);
        var channel = table.Integer("channel", 0, 7);
        var range = table.Number("range_v", 0.1, 10, "V");
        var rate = table.Number("rate_hz", 1, 100_000, "Hz");
        table.Require("converter", string.Join(", ", ConverterModel.All.Select(model => $"\"{model.Kind}\"")));
        table.Require("device", "the path of a bus such as \"/dev/spidev0.1\" or \"/dev/i2c-1\"");
        table.Require("range_v", "the full scale in V: the reference of an MCP3208, one of the ranges of an ADS1115");
        table.Finish();
        if (ConverterModel.Find(kind) is not { } model || device is null || range is null || mainsHz is not { } mains)
        {
            return null;
        }

        var i2c = model.Bus == ChipBus.I2c;
        var ranges = string.Join(", ", ConverterRanges.Ads1115.Select(one => one.ToString(CultureInfo.InvariantCulture)));
        var fine = Allowed(table, "device", ChipDevices.Parse(model.Bus, device) is not null, i2c ? "a path such as \"/dev/i2c-1\"" : "a path such as \"/dev/spidev0.1\"")
            & Allowed(table, "address", address is null || (i2c && address is >= 0x48 and <= 0x4B), i2c ? "72 to 75 (0x48 to 0x4B)" : "on SPI the device file names the chip; nothing")
            & Allowed(table, "channel", channel is null || channel < model.Channels, string.Create(CultureInfo.InvariantCulture, $"an input of the {model.Name}, 0 to {model.Channels - 1},"))
            & Allowed(table, "range_v", !i2c || ConverterRanges.Ads1115.Contains(range.Value), $"one of {ranges} V")
            & Allowed(table, "speed_hz", speed is null || speed <= model.MostBusHz, string.Create(CultureInfo.InvariantCulture, $"at most {model.MostBusHz}"));
        if (!fine)
        {
            return null;
        }

        var settings = new ConverterSettings
        {
            Model = model,
            Device = device,
            Address = address ?? 0x48,
            SpeedHz = speed ?? (i2c ? UsualI2cHz : model.MostBusHz),
            Channel = channel ?? 0,
            RangeVolts = range.Value,
            RateHz = rate ?? Math.Min(UsualACycle * mains, model.MostHz),
            MainsHz = mains,
        };
        if (ConverterBudget.Trouble(settings) is { } unfit)
        {
            table.Refuse(rate is null ? "converter" : "rate_hz", $"[supply]: {unfit}");
            return null;
        }

        return settings;
    }

    private static bool Allowed(TableReader table, string key, bool fine, string expected)
    {
        if (!fine)
        {
            table.Refuse(key, $"`{key}` does not go with the converter; {expected} was expected");
        }

        return fine;
    }
}
