using StrokeWatch.Configuration;
using StrokeWatch.Configuration.Toml;
using Xunit;

namespace StrokeWatch.Tests.Configuration;

/// <summary>The table [supply] of the daemon's configuration: a converter beside the sensor.</summary>
public sealed class ConverterPartTests : IDisposable
{
    private readonly ConfigurationFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public void What_is_not_said_follows_from_the_converter_and_the_mains()
    {
        var spi = Read("converter = \"mcp3208\"\ndevice = \"/dev/spidev0.1\"\nrange_v = 3.3").Value!.Supply!;
        Assert.Equal(("MCP3208", 0, 1_000_000, 16.0 * spi.MainsHz, 3.3), (spi.Model.Name, spi.Channel, spi.SpeedHz, spi.RateHz, spi.RangeVolts));
        var i2c = Read("converter = \"ads1115\"\ndevice = \"/dev/i2c-1\"\nrange_v = 4.096\nchannel = 2\naddress = 73\nspeed_hz = 400000").Value!.Supply!;
        Assert.Equal(("ADS1115", 2, 0x49, 400_000), (i2c.Model.Name, i2c.Channel, i2c.Address, i2c.SpeedHz));
        Assert.InRange(i2c.RateHz, 800, 860);
        Assert.Null(Read(null).Value!.Supply);
    }

    [Theory]
    [InlineData("converter = \"mcp3208\"\ndevice = \"/dev/i2c-1\"\nrange_v = 3.3", "a path such as \"/dev/spidev0.1\"")]
    [InlineData("converter = \"mcp3208\"\ndevice = \"/dev/spidev0.1\"\nrange_v = 3.3\naddress = 72", "on SPI the device file names the chip")]
    [InlineData("converter = \"ads1115\"\ndevice = \"/dev/i2c-1\"\nrange_v = 4.096\nchannel = 4", "an input of the ADS1115, 0 to 3,")]
    [InlineData("converter = \"ads1115\"\ndevice = \"/dev/i2c-1\"\nrange_v = 3.3", "one of 6.144, 4.096, 2.048, 1.024, 0.512, 0.256 V")]
    [InlineData("converter = \"ads1115\"\ndevice = \"/dev/i2c-1\"\nrange_v = 4.096\nrate_hz = 2000", "more than the ADS1115 and its bus at 100 kHz take (860)")]
    [InlineData("converter = \"mcp3208\"\ndevice = \"/dev/spidev0.1\"\nrange_v = 3.3\nrate_hz = 100", "fewer than 8 a cycle")]
    [InlineData("converter = \"mcp3208\"\ndevice = \"/dev/spidev0.1\"\nrange_v = 3.3\nspeed_hz = 9000000", "at most 1000000")]
    [InlineData("converter = \"mcp3208\"\ndevice = \"/dev/spidev0.1\"", "range_v")]
    [InlineData("converter = \"adc\"\ndevice = \"/dev/spidev0.1\"\nrange_v = 3.3", "mcp3208")]
    [InlineData("converter = \"mcp3208\"\ndevice = \"/dev/spidev0.1\"\nrange_v = 3.3\nvolts = 1", "volts")]
    public void What_is_wrong_is_said_in_one_line_with_what_was_expected(string table, string says)
    {
        var error = Assert.Single(Read(table).Errors);
        Assert.Contains(says, error.Message, StringComparison.Ordinal);
        Assert.True(error.Line >= 7, error.ToString());
    }

    private ConfigurationResult<WatchConfiguration> Read(string? table)
    {
        folder.Write("sand.toml", Examples.Least);
        return WatchFile.Read(folder.Write(
            "watch.toml", $"feeder = \"sand.toml\"\n[sensor]\nport = \"/dev/ttyACM0\"\nprotocol = \"frames\"\n[store]\npath = \"s.db\"\n{(table is null ? "" : "[supply]\n" + table)}\n"));
    }
}
