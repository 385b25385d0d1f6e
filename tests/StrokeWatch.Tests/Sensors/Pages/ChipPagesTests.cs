using System.Globalization;
using System.Text.RegularExpressions;
using StrokeWatch.Sensors.Chips;
using StrokeWatch.Tests.Configuration;
using Xunit;

namespace StrokeWatch.Tests.Sensors.Pages;

/// <summary>The tables of the pages on sensors are what the program itself works out.</summary>
public sealed class ChipPagesTests
{
    [Fact]
    public void The_table_of_sensors_is_the_programs_own_advice()
    {
        var rows = Regex.Matches(NotesPage.Read("choosing-a-sensor.md"), @"^\| ([\d.]+) mm \| (\d+) Hz \| (.+) \|$", RegexOptions.Multiline);
        Assert.Equal(9, rows.Count);
        foreach (Match row in rows)
        {
            var advice = RangeAdvice.For(Number(row.Groups[1].Value) / 1000, Number(row.Groups[2].Value));
            Assert.Equal(string.Create(CultureInfo.InvariantCulture, $"{advice.StrokePeakG:0.0} g | {advice.ExpectedPeakG:0.0} g | {advice.WantedG:0.0} g | {advice.Suiting()}"), row.Groups[3].Value);
        }
    }

    [Fact]
    public void The_table_of_what_fits_is_the_programs_own_budget()
    {
        var rows = Regex.Matches(NotesPage.Read("chips-on-a-bus.md"), @"^\| (adxl357|kx134|adxl345) \| (\d+) Hz \| (i2c|spi) (\d+) (kHz|MHz) \| (.+) \|$", RegexOptions.Multiline);
        Assert.Equal(8, rows.Count);
        foreach (Match row in rows)
        {
            var load = BusBudget.Of(
                ChipModels.Find(row.Groups[1].Value)!,
                row.Groups[3].Value == "spi" ? ChipBus.Spi : ChipBus.I2c,
                Number(row.Groups[4].Value) * (row.Groups[5].Value == "kHz" ? 1e3 : 1e6),
                Number(row.Groups[2].Value));
            Assert.Equal(
                string.Create(CultureInfo.InvariantCulture, $"{100 * load.PayloadShare:0} % | {1000 * load.FifoSeconds:0.0} ms | {1000 * load.SlackSeconds:0.0} ms | {load.Verdict.ToString().ToLowerInvariant()}"),
                row.Groups[6].Value);
        }
    }

    [Fact]
    public void The_pages_example_is_read_as_it_stands()
    {
        using var folder = new ConfigurationFolder();
        folder.Write("sand.toml", Examples.Least);
        var (_, lines) = NotesPage.Blocks("chips-on-a-bus.md").Single(block => block.Kind == "toml");
        var read = StrokeWatch.Configuration.WatchFile.Read(folder.Write("watch.toml", $"feeder = \"sand.toml\"\n{string.Join('\n', lines)}\n[store]\npath = \"s.db\""));
        Assert.Empty(read.Errors);
        Assert.Equal("adxl357", read.Value!.Ports[0].Chip!.Model.Kind);
    }

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);
}
