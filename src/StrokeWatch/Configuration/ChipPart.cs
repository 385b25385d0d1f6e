using System.Globalization;
using StrokeWatch.Configuration.Toml;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Sensors.Chips;
using StrokeWatch.Sensors.Serial;

namespace StrokeWatch.Configuration;

/// <summary>The keys of a table [sensor] that is a chip on a bus of the board: kind, bus, device, address, speed_hz, range_g, rate_hz.</summary>
internal static class ChipPart
{
    /// <summary>The clock of an I2C bus in Hz where nothing is set: the board's own default.</summary>
    public const int UsualI2cHz = 100_000;

    private static readonly string[] Foreign = ["port", "protocol", "baud", "unit", "counts_per_g", "time", "full_scale_g"];

    /// <summary>Reads a chip; null where it is wrong.</summary>
    public static SensorPort? Read(TableReader table, IReadOnlyList<Axis> axes, IReadOnlyList<SensorPlace>? places)
    {
        var kind = table.Choice("kind", [.. ChipModels.All.Select(model => model.Kind)]);
        var wires = table.Choice("bus", "spi", "i2c");
        var device = table.Text("device", "the path of a bus such as \"/dev/spidev0.0\" or \"/dev/i2c-1\"");
        var address = table.Integer("address", 0x08, 0x77);
        var speed = table.Integer("speed_hz", 10_000, 10_000_000);
        var range = table.Number("range_g", 0.1, 10_000, "g");
        var rate = table.Number("rate_hz", 1, 100_000, "Hz");
        table.Require("bus", "\"spi\" or \"i2c\"");
        table.Require("device", "the path of a bus such as \"/dev/spidev0.0\" or \"/dev/i2c-1\"");
        foreach (var key in Foreign.Where(table.HasForeign))
        {
            table.Refuse(key, $"`{key}` is for sensors on serial ports; beside `kind` nothing was expected here");
        }

        if (places is { Count: > 1 })
        {
            table.Refuse("places", "a chip is one sensor; `place` with one place was expected");
        }

        if (ChipModels.Find(kind) is not { } model)
        {
            return null;
        }

        var ranges = string.Join(", ", model.Ranges.Select(one => one.FullScaleG.ToString(CultureInfo.InvariantCulture)));
        var rates = string.Join(", ", model.Rates.Select(one => one.Hz.ToString(CultureInfo.InvariantCulture)));
        table.Require("range_g", $"one of {ranges} g");
        table.Require("rate_hz", $"one of {rates} Hz");
        var bus = wires == "i2c" ? ChipBus.I2c : ChipBus.Spi;
        var fine = Allowed(table, "range_g", range, range is { } g && model.RangeOf(g) is not null, $"the {model.Name} has {ranges} g")
            & Allowed(table, "rate_hz", rate, rate is { } hz && model.RateOf(hz) is not null, $"the {model.Name} has {rates} Hz")
            & Allowed(table, "device", device, device is not null && ChipDevices.Parse(bus, device) is not null, bus == ChipBus.Spi ? "a path such as \"/dev/spidev0.0\"" : "a path such as \"/dev/i2c-1\"")
            & Allowed(table, "address", address, bus == ChipBus.I2c && address is { } at && model.Addresses.Contains(at), bus == ChipBus.Spi ? "on SPI the device file names the chip; nothing" : Addresses(model))
            & Allowed(table, "speed_hz", speed, speed <= (bus == ChipBus.Spi ? model.MostSpiHz : model.MostI2cHz), $"at most {(bus == ChipBus.Spi ? model.MostSpiHz : model.MostI2cHz)}");
        if (!fine || wires is null || device is null || range is null || rate is null || places is null or { Count: > 1 })
        {
            return null;
        }

        var chip = new ChipSettings
        {
            Model = model,
            Bus = bus,
            Device = device,
            Address = bus == ChipBus.I2c ? address ?? model.Addresses[0] : 0,
            SpeedHz = speed ?? (bus == ChipBus.Spi ? model.UsualSpiHz : UsualI2cHz),
            Range = model.RangeOf(range.Value)!.Value,
            Rate = model.RateOf(rate.Value)!.Value,
        };
        if (BusBudget.Trouble(chip) is { } unfit)
        {
            table.Refuse("rate_hz", unfit);
            return null;
        }

        return new(
            new SerialSettings { Path = chip.Name },
            new() { Protocol = model.Kind, Axes = axes, Places = places, RateHz = chip.Rate.Hz, FullScale = chip.Range.FullScaleG * Gravity.Standard })
        {
            Chip = chip,
        };
    }

    /// <summary>Says in a sentence where a chip's range does not even hold the stroke of the feeder's limit; null where it does. Sensors on the body alone move less and are not judged.</summary>
    public static string? Clips(FeederDescription feeder, IReadOnlyList<SensorPort> ports)
    {
        var advice = RangeAdvice.For(feeder);
        var clipping = ports.FirstOrDefault(port => port.Chip is { } chip && OnTray(port) && advice.Judge(chip.Range.FullScaleG) == RangeVerdict.Clips);
        return clipping?.Chip is { } narrow ? $"range_g = {advice.Words(narrow.Range.FullScaleG)}; a larger range was expected for {narrow.Name}" : null;
    }

    /// <summary>Says in a sentence where chips that share an I2C bus ask more of it together than there is; null where they do not.</summary>
    public static string? Crowded(IReadOnlyList<SensorPort> ports) => ports
        .Select(port => port.Chip).OfType<ChipSettings>().Where(chip => chip.Bus == ChipBus.I2c).GroupBy(chip => chip.Device)
        .Select(bus => (bus.Key, Share: bus.Sum(chip => BusBudget.Of(chip).PayloadShare), Count: bus.Count()))
        .Where(bus => bus.Count > 1 && bus.Share > BusBudget.MostShare)
        .Select(bus => string.Create(CultureInfo.InvariantCulture, $"the {bus.Count} chips on {bus.Key} take {100 * bus.Share:0} % of the bus together; lower rates, or a bus each, were expected"))
        .FirstOrDefault();

    /// <summary>Gives whether a device has a sensor on the tray.</summary>
    public static bool OnTray(SensorPort port) => port.Sensor.Places.Count == 0 || port.Sensor.Places.Any(place => place != SensorPlace.Body);

    private static string Addresses(ChipModel model) => string.Join(" or ", model.Addresses.Select(at => string.Create(CultureInfo.InvariantCulture, $"0x{at:X2}")));

    private static bool Allowed(TableReader table, string key, object? value, bool allowed, string expected)
    {
        if (value is null || allowed)
        {
            return true;
        }

        table.Refuse(key, string.Create(CultureInfo.InvariantCulture, $"`{key}` is {value}; {expected} was expected"));
        return false;
    }
}
