using StrokeWatch.Configuration;
using Xunit;

namespace StrokeWatch.Tests.Configuration;

public sealed class SupplyPartTests : IDisposable
{
    private const string Top = "name = \"Soda ash feeder\"\n[drive]\nsupply_hz = 50\nstrokes_per_cycle = 1\n[stroke]\nlow = \"1.65 mm\"\nhigh = \"1.78 mm\"\n";

    private readonly ConfigurationFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public void The_whole_table_is_read()
    {
        var feeder = FeederFile.Read(folder.Write("feeder.toml", Top + "[supply]\nfull_voltage_v = 230\nvoltage_v = 218.5\nscale_v = 100\nuncertainty_percent = 0.5\nmagnet = \"biased\"\n")).Value!;
        Assert.Equal((230, 218.5, 100, 0.005, true), (feeder.Supply!.FullVolts, feeder.Supply.EnteredVolts, feeder.Supply.VoltsPerUnit, feeder.Supply.Uncertainty, feeder.Supply.Biased));
    }

    [Fact]
    public void Without_the_table_nothing_is_known_and_with_an_empty_one_the_scale_is_one()
    {
        Assert.Null(FeederFile.Read(folder.Write("feeder.toml", Top)).Value!.Supply);
        var supply = FeederFile.Read(folder.Write("feeder.toml", Top + "[supply]\n")).Value!.Supply!;
        Assert.Equal((null, null, 1, null, false), (supply.FullVolts, supply.EnteredVolts, supply.VoltsPerUnit, supply.Uncertainty, supply.Biased));
    }

    [Theory]
    [InlineData("full_voltage_v = 0", "9: `supply.full_voltage_v` is 0; a number from 0.1 to 100000 V was expected")]
    [InlineData("full_voltage_v = \"230 V\"", "9: `supply.full_voltage_v` is \"230 V\"; a number from 0.1 to 100000 V was expected")]
    [InlineData("scale_v = -1", "9: `supply.scale_v` is -1; a number from 0.000001 to 1000000 V a unit of the channel was expected")]
    [InlineData("voltage_v = 220", "8: `full_voltage_v` is missing in [supply]; the voltage in V at which the stroke band holds was expected")]
    [InlineData("magnet = \"strong\"", "9: `supply.magnet` is \"strong\"; \"plain\" or \"biased\" was expected")]
    [InlineData("full_volts_v = 230", "9: unknown key `full_volts_v` in [supply]; did you mean `full_voltage_v`?")]
    public void What_is_wrong_is_told_with_its_line(string line, string words)
    {
        var error = Assert.Single(FeederFile.Read(folder.Write("feeder.toml", Top + "[supply]\n" + line + "\n")).Errors).ToString();
        Assert.Contains($"feeder.toml:{words}", error, StringComparison.Ordinal);
    }
}
