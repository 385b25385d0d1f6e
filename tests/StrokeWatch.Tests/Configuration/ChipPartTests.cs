using StrokeWatch.Configuration;
using StrokeWatch.Configuration.Toml;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Sensors.Chips;
using Xunit;

namespace StrokeWatch.Tests.Configuration;

public sealed class ChipPartTests : IDisposable
{
    private readonly ConfigurationFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public void A_chip_on_SPI_is_read_with_the_usual_clock()
    {
        var port = Assert.Single(Read("kind = \"adxl357\"\nbus = \"spi\"\ndevice = \"/dev/spidev0.0\"\nrange_g = 40\nrate_hz = 4000").Value!.Ports);
        Assert.Equal("/dev/spidev0.0", port.Port.Path);
        Assert.Equal((ChipBus.Spi, 4_000_000, 40.0, 4000.0), (port.Chip!.Bus, port.Chip.SpeedHz, port.Chip.Range.FullScaleG, port.Chip.Rate.Hz));
        Assert.Equal(("adxl357", 4000.0), (port.Sensor.Protocol, port.Sensor.RateHz!.Value));
        Assert.Equal(40 * Gravity.Standard, port.Sensor.FullScale!.Value, 1e-9);
        Assert.Equal([Axis.X, Axis.Y, Axis.Z], port.Sensor.Axes);
    }

    [Fact]
    public void A_chip_on_I2C_is_read_with_its_address()
    {
        var chip = Assert.Single(Read("kind = \"kx134\"\nbus = \"i2c\"\ndevice = \"/dev/i2c-1\"\naddress = 0x1F\nspeed_hz = 400000\nrange_g = 32\nrate_hz = 3200\naxes = \"xz\"").Value!.Ports).Chip!;
        Assert.Equal((ChipBus.I2c, 0x1F, 400_000), (chip.Bus, chip.Address, chip.SpeedHz));
        Assert.Equal("/dev/i2c-1 at 0x1F", chip.Name);
    }

    [Fact]
    public void Several_chips_may_share_a_bus_but_not_an_address()
    {
        folder.Write("sand.toml", Examples.Least + "\n[[sensors]]\nplace = \"front\"\n[[sensors]]\nplace = \"rear\"");
        var text = """
            feeder = "sand.toml"
            [[sensor]]
            kind = "adxl357"
            bus = "i2c"
            device = "/dev/i2c-1"
            speed_hz = 400000
            range_g = 40
            rate_hz = 1000
            place = "front"
            [[sensor]]
            kind = "adxl357"
            bus = "i2c"
            device = "/dev/i2c-1"
            address = 0x53
            speed_hz = 400000
            range_g = 40
            rate_hz = 1000
            place = "rear"
            [store]
            path = "s.db"
            """;
        var read = WatchFile.Read(folder.Write("watch.toml", text));
        Assert.Empty(read.Errors);
        Assert.Equal([0x1D, 0x53], read.Value!.Ports.Select(port => port.Chip!.Address));
        Assert.Contains(
            "/dev/i2c-1 at 0x1D stands in several tables", WatchFile.Read(folder.Write("watch.toml", text.Replace("0x53", "0x1D", StringComparison.Ordinal))).Errors[0].ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Chips_on_one_I2C_bus_must_fit_it_together()
    {
        folder.Write("sand.toml", Examples.Least + "\n[[sensors]]\nplace = \"front\"\n[[sensors]]\nplace = \"rear\"");
        var one = "[[sensor]]\nkind = \"adxl357\"\nbus = \"i2c\"\ndevice = \"/dev/i2c-1\"\nspeed_hz = 400000\nrange_g = 40\nrate_hz = 2000\n";
        var read = WatchFile.Read(folder.Write("watch.toml", $"feeder = \"sand.toml\"\n{one}place = \"front\"\n{one}place = \"rear\"\naddress = 0x53\n[store]\npath = \"s.db\""));
        Assert.Contains("take 81 % of the bus together", Assert.Single(read.Errors).ToString(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("range_g = 40", "range_g = 32", "`range_g` is 32; the ADXL357 has 10, 20, 40 g was expected")]
    [InlineData("rate_hz = 4000", "rate_hz = 3200", "`rate_hz` is 3200; the ADXL357 has 125, 250, 500, 1000, 2000, 4000 Hz was expected")]
    [InlineData("/dev/spidev0.0", "/dev/i2c-1", "`device` is /dev/i2c-1; a path such as \"/dev/spidev0.0\" was expected")]
    [InlineData("range_g = 40", "range_g = 40\naddress = 29", "`address` is 29; on SPI the device file names the chip; nothing was expected")]
    [InlineData("range_g = 40", "range_g = 40\nport = \"/dev/ttyACM0\"", "`port` is for sensors on serial ports")]
    [InlineData("range_g = 40", "range_g = 40\nspeed_hz = 10000001", "10000000 was expected")]
    [InlineData("range_g = 40\n", "", "`range_g` is missing")]
    [InlineData("\"spi\"\ndevice = \"/dev/spidev0.0\"", "\"i2c\"\ndevice = \"/dev/i2c-1\"", "it does not fit. What would fit: rate_hz = 500 on this bus, or 4000 Hz on SPI at 4 MHz")]
    [InlineData("range_g = 40", "range_g = 10", "it would clip and read low; take ADXL357 at 40 g or KX134 at 32 g; a larger range was expected for /dev/spidev0.0")]
    public void What_is_wrong_is_said_in_one_line_that_names_file_and_line(string good, string bad, string words)
    {
        const string Good = "kind = \"adxl357\"\nbus = \"spi\"\ndevice = \"/dev/spidev0.0\"\nrange_g = 40\nrate_hz = 4000";
        Assert.Contains(good, Good, StringComparison.Ordinal);
        var error = Assert.Single(Read(Good.Replace(good, bad, StringComparison.Ordinal)).Errors);
        Assert.Contains(words, error.ToString(), StringComparison.Ordinal);
        Assert.Matches(@"watch\.toml:\d+: ", error.ToString());
    }

    private ConfigurationResult<WatchConfiguration> Read(string sensor)
    {
        folder.Write("sand.toml", Examples.Least);
        return WatchFile.Read(folder.Write("watch.toml", $"feeder = \"sand.toml\"\n[sensor]\n{sensor}\n[store]\npath = \"s.db\""));
    }
}
