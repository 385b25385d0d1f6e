using StrokeWatch.Commands;
using StrokeWatch.Sensors.Chips;
using StrokeWatch.Sensors.Serial;
using StrokeWatch.Tests.Configuration;
using StrokeWatch.Tests.Sensors.Chips.Emulated;
using Xunit;

namespace StrokeWatch.Tests.Commands;

/// <summary>What <c>check</c> says of a chip, walked along an emulated one.</summary>
public sealed class ChipWalkTests : IDisposable
{
    private readonly ConfigurationFolder folder = new();
    private readonly StringWriter output = new();
    private readonly StringWriter error = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public void A_healthy_chip_is_walked_along_in_order_and_the_next_thing_named()
    {
        using var bench = new ChipBench("adxl357", ChipBus.I2c, 1000) { Chip = { RateError = 0.012, Signal = Quiet } };
        Assert.Equal(0, Run(bench, "i2c", "/dev/i2c-1\"\nspeed_hz = 400000\nrange_g = 40\nrate_hz = 1000\n#\"", 400_000));
        Assert.Equal("", error.ToString());
        string[] order = ["configuration", "feeder file", "bus /dev/i2c-1: 400 kHz", "identity and settings hold, 31 °C", "self-test moved x, y, z by 0.30, 0.30, 1.50 g: passed", "gravity reads 1.00 g", "1012 Hz by this computer's clock", "scatter by", "a drain may be", "of full scale are wanted: it suits", "store", "strokewatch watch"];
        var text = output.ToString();
        var at = -1;
        foreach (var words in order)
        {
            var found = text.IndexOf(words, at + 1, StringComparison.Ordinal);
            Assert.True(found > at, $"{words} is missing or out of order in\n{text}");
            at = found;
        }
    }

    [Fact]
    public void A_bus_slower_than_configured_is_trouble_with_the_line_to_write()
    {
        using var bench = new ChipBench("adxl357", ChipBus.I2c, 1000) { Chip = { Signal = Quiet } };
        Assert.Equal(1, Run(bench, "i2c", "/dev/i2c-1\"\nspeed_hz = 400000\nrange_g = 40\nrate_hz = 1000\n#\"", 100_000));
        Assert.Contains("runs at 100 kHz, speed_hz says 400 kHz; write dtparam=i2c_arm_baudrate=400000 into the board's config.txt", error.ToString(), StringComparison.Ordinal);
        Assert.DoesNotContain("next ", output.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_chip_that_does_not_answer_is_trouble_and_nothing_is_said_of_rate_or_noise()
    {
        using var bench = new ChipBench("adxl357", ChipBus.Spi, 4000) { Chip = { Trouble = BusTrouble.AllZeros } };
        Assert.Equal(1, Run(bench, "spi", "/dev/spidev0.0\"\nrange_g = 40\nrate_hz = 4000\n#\"", null));
        Assert.Contains("trouble  ADXL357 on /dev/spidev0.0: the bus reads 000000 throughout, so nothing answers", error.ToString(), StringComparison.Ordinal);
        Assert.DoesNotContain("scatter", output.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_moving_tray_a_narrow_range_and_a_tight_budget_are_notes()
    {
        using var bench = new ChipBench("adxl357", ChipBus.Spi, 4000, 20) { Chip = { Signal = n => (3 * Math.Sin(2 * Math.PI * 50 * n / 4000), 0, 1) } };
        Assert.Equal(0, Run(bench, "spi", "/dev/spidev0.0\"\nrange_g = 20\nrate_hz = 4000\n#\"", null));
        Assert.Matches(@"note     ADXL357 on /dev/spidev0\.0: x, y, z scatter by 21[12]\d\.\d, 0\.0, 0\.0 mg, the data sheet's noise is 2\.4 mg", output.ToString());
        Assert.Contains("for its noise check with the feeder stopped", output.ToString(), StringComparison.Ordinal);
        Assert.Contains("it works, but a strike will clip; better ADXL357 at 40 g", output.ToString(), StringComparison.Ordinal);
        Assert.Contains("ms late: tight", output.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void The_clock_of_an_I2C_bus_is_read_from_the_device_tree()
    {
        Assert.Null(BusSpeed.OfI2c(1, folder.Path));
        var node = Directory.CreateDirectory(Path.Combine(folder.Path, "bus", "i2c", "devices", "i2c-1", "of_node"));
        File.WriteAllBytes(Path.Combine(node.FullName, "clock-frequency"), [0x00, 0x06, 0x1A, 0x80]);
        Assert.Equal(400_000, BusSpeed.OfI2c(1, folder.Path));
        Assert.Null(BusSpeed.OfI2c(2, folder.Path));
    }

    private static (double X, double Y, double Z) Quiet(long n) => (n % 2 == 0 ? 0.001 : -0.001, 0, 1);

    private int Run(ChipBench bench, string bus, string device, int? i2cHz)
    {
        folder.Write("sand.toml", Examples.Least);
        var file = folder.Write("watch.toml", $"feeder = \"sand.toml\"\n[sensor]\nkind = \"{bench.Settings.Model.Kind}\"\nbus = \"{bus}\"\ndevice = \"{device}\n[store]\npath = \"s.db\"");
        return CheckCommand.Run(file, null, output, error, new NoPort(), new Bench(bench, i2cHz));
    }

    private sealed class NoPort : IPortProbe
    {
        public string? Trouble(SerialSettings port) => throw new InvalidOperationException("a chip is no serial port");
    }

    private sealed class Bench(ChipBench bench, int? i2cHz) : IChipProbe
    {
        public int? I2cHz(ChipSettings settings) => i2cHz;

        public ChipFindings Look(ChipSettings settings)
        {
            Assert.Equal(bench.Settings.Name, settings.Name);
            return ChipCheck.Run(bench.Opener, bench.Told, bench.Settings, bench.Time, 4);
        }
    }
}
