using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Sources;
using StrokeWatch.Tests.Samples.Captures;
using Xunit;

namespace StrokeWatch.Tests.Samples.Csv;

public sealed class SupplyColumnTests
{
    [Theory]
    [InlineData("supply_v", 1)]
    [InlineData("u_v", 1)]
    [InlineData("voltage_v", 1)]
    [InlineData("supply_mv", 1e-3)]
    [InlineData("U_kV", 1e3)]
    [InlineData("Voltage [V]", 1)]
    [InlineData("Supply voltage (mV)", 1e-3)]
    [InlineData("coil_voltage_volts", 1)]
    public void A_column_named_after_a_voltage_in_its_unit_is_the_supplys(string name, double scale)
    {
        var (info, volts, axes) = Read($"t_s,x_g,{name},z_g\n" + Rows(i => $"{i / 1000.0},0.5,{i * 10},1\n"));
        Assert.True(info.HasSupply);
        Assert.Equal([Axis.X, Axis.Z], info.Axes);
        Assert.Equal(Enumerable.Range(0, 40).Select(i => Math.Round(i * 10 * scale, 9)), volts.Select(v => Math.Round(v, 9)));
        Assert.All(axes[1], z => Assert.Equal(Reading.G, z));
        Assert.Empty(info.Guesses);
    }

    [Theory]
    [InlineData("voltage")]
    [InlineData("u")]
    [InlineData("supply_a")]
    [InlineData("gv")]
    [InlineData("y_g")]
    public void A_column_without_the_name_or_the_unit_of_a_voltage_is_left_alone(string name)
    {
        var (info, volts, _) = Read($"t_s,x_g,{name}\n" + Rows(i => $"{i / 1000.0},0.5,{i}\n"));
        Assert.False(info.HasSupply);
        Assert.Empty(volts);
    }

    [Fact]
    public void The_axes_are_read_to_the_last_bit_as_without_the_voltage()
    {
        string Row(int i, string beside) => FormattableString.Invariant($"{i / 3200.0:F9},{Math.Sin(0.7 * i):G9},{Math.Cos(0.3 * i):G9}{beside}\n");
        var with = Reading.OfText("t_s,x_g,z_g,supply_v\n" + Rows(i => Row(i, i == 7 ? "," : FormattableString.Invariant($",{325 * Math.Sin(0.1 * i):G9}"))));
        var without = Reading.OfText("t_s,x_g,z_g\n" + Rows(i => Row(i, "")));
        Assert.Equal(without.Values, with.Values);
        Assert.Equal(without.Info.RateHz, with.Info.RateHz);
        Assert.Equal(without.Blocks, with.Blocks);
    }

    [Theory]
    [InlineData("0.011,0.5,")]
    [InlineData("0.011,0.5")]
    [InlineData("0.011,0.5,nan")]
    [InlineData("0.011,0.5,---")]
    public void A_voltage_that_is_missing_costs_no_sample(string row)
    {
        var (_, volts, axes) = Read("t_s,x_g,supply_v\n" + Rows(i => i == 11 ? row + "\n" : $"{i / 1000.0},0.5,230\n"));
        Assert.Equal(40, axes[0].Count);
        Assert.Equal([11], Enumerable.Range(0, 40).Where(i => double.IsNaN(volts[i])));
    }

    [Fact]
    public void A_file_with_nothing_but_a_voltage_keeps_its_old_meaning()
    {
        var (info, _, axes) = Read("time_s,Voltage [V]\n" + Rows(i => $"{i / 1000.0},{i}\n"), new() { Unit = StrokeWatch.Samples.Quantities.AccelerationUnit.G });
        Assert.False(info.HasSupply);
        Assert.Equal(39 * Reading.G, axes[0][39]);
    }

    [Fact]
    public void Two_voltages_are_not_guessed_between_and_the_option_says_which()
    {
        var text = "t_s,x_g,u_v,supply_mv\n" + Rows(i => $"{i / 1000.0},0.5,{i},230000\n");
        var (none, _, _) = Read(text);
        Assert.False(none.HasSupply);
        Assert.Contains("columns 3 and 4 are both named after a voltage", Assert.Single(none.Guesses), StringComparison.Ordinal);
        var (info, volts, _) = Read(text, new() { SupplyChannel = 4 });
        Assert.True(info.HasSupply);
        Assert.All(volts, v => Assert.Equal(230, v, 9));
    }

    [Theory]
    [InlineData(9, "has 3 columns; --supply-channel says 9")]
    [InlineData(1, "column 1 is taken for time, and by --supply-channel")]
    [InlineData(2, "column 2 is taken for an axis, and by --supply-channel")]
    public void A_wrong_channel_is_one_clear_line(int channel, string words) =>
        Assert.Contains(words, Reading.ErrorOf("t_s,x_g,extra\n" + Rows(i => $"{i / 1000.0},0.5,{i}\n"), new() { SupplyChannel = channel }), StringComparison.Ordinal);

    private static string Rows(Func<int, string> row) => string.Concat(Enumerable.Range(0, 40).Select(row));

    private static (SourceInfo Info, List<double> Volts, List<double>[] Axes) Read(string text, CaptureOptions? options = null)
    {
        using var source = CaptureFile.Open(new CaptureBytes("sand.csv", () => new MemoryStream(System.Text.Encoding.UTF8.GetBytes(text))), options ?? new());
        var block = new SampleBlock(source.Info.Axes.Count, 16);
        var volts = new List<double>();
        var axes = source.Info.Axes.Select(_ => new List<double>()).ToArray();
        while (source.Read(block) == SourceState.Samples)
        {
            volts.AddRange(block.Supply);
            for (var a = 0; a < axes.Length; a++)
            {
                axes[a].AddRange(block[a]);
            }
        }

        return (source.Info, volts, axes);
    }
}
