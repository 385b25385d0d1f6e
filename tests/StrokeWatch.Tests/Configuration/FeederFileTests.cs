using System.Globalization;
using StrokeWatch.Configuration;
using StrokeWatch.Machine.Feeder;
using Xunit;

namespace StrokeWatch.Tests.Configuration;

public sealed class FeederFileTests : IDisposable
{
    private readonly ConfigurationFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public void The_example_of_the_contract_is_read_value_for_value()
    {
        var feeder = Read(Examples.Contract);
        Assert.Equal("Bin 4 dosing feeder", feeder.Name);
        Assert.Equal("medium", feeder.Model);
        Assert.Equal(new DriveDescription(60, 1, Free: false), feeder.Drive);
        Assert.Equal(1.65e-3, feeder.Band.Low.Metres, 15);
        Assert.Equal(1.78e-3, feeder.Band.High.Metres, 15);
        Assert.Equal(1.90e-3, feeder.Band.Limit.Metres, 15);
        Assert.Null(feeder.LineAngleDegrees);
        var springs = Assert.IsType<SpringDescription>(feeder.Springs);
        Assert.Equal(205e9, springs.Modulus);
        Assert.Equal(0.120, springs.LengthMetres, 15);
        Assert.Equal(0.075, springs.WidthMetres, 15);
        Assert.Equal([new LeafLayer(0.004, 4)], springs.Front);
        Assert.Equal([new LeafLayer(0.004, 5)], springs.Rear);
        Assert.Equal([0.003, 0.004, 0.005], springs.Stock);
        Assert.Equal(10, springs.MaxRearLeaves);
        Assert.Equal(300e6, springs.EnduranceStress);
        Assert.Equal(new MassDescription(35, 70), feeder.Masses);
        Assert.Equal(2.2e-3, feeder.RestGapMetres!.Value, 15);
        Assert.Equal(new SensorDescription(), feeder.Sensor);
    }

    [Fact]
    public void Drive_and_stroke_are_enough_and_the_limit_then_stands_five_mil_above_the_band()
    {
        var feeder = Read(Examples.Least);
        Assert.Equal("feeder", feeder.Name);
        Assert.Equal(1.6e-3 + (0.005 * 0.0254), feeder.Band.Limit.Metres, 12);
        Assert.Null(feeder.Springs);
        Assert.Null(feeder.Masses);
        Assert.Null(feeder.RestGapMetres);
    }

    [Theory]
    [InlineData("1.651 mm", "1.778 mm", "1.905 mm")]
    [InlineData("0.065 in", "0.070 in", "0.075 in")]
    [InlineData("65 mil", "70 mil", "75 mil")]
    public void Millimetres_inches_and_mils_say_the_same(string low, string high, string limit)
    {
        var band = Read($"[drive]\nsupply_hz = 60\nstrokes_per_cycle = 1\n[stroke]\nlow = \"{low}\"\nhigh = \"{high}\"\nlimit = \"{limit}\"").Band;
        Assert.Equal(0.065 * 0.0254, band.Low.Metres, 12);
        Assert.Equal(0.070 * 0.0254, band.High.Metres, 12);
        Assert.Equal(0.075 * 0.0254, band.Limit.Metres, 12);
    }

    [Fact]
    public void A_decimal_comma_culture_changes_nothing()
    {
        var before = CultureInfo.CurrentCulture;
        var comma = (CultureInfo)CultureInfo.InvariantCulture.Clone();
        comma.NumberFormat.NumberDecimalSeparator = ",";
        comma.NumberFormat.NumberGroupSeparator = ".";
        CultureInfo.CurrentCulture = comma;
        try
        {
            Assert.Equal(1.65e-3, Read(Examples.Contract).Band.Low.Metres, 15);
            var error = Assert.Single(FeederFile.Read(folder.Write("bad.toml", Examples.Least + "\n[air_gap]\nrest_mm = 2000.5")).Errors);
            Assert.Contains(":8: `air_gap.rest_mm` is 2000.5; a number from 0.01 to 100 mm was expected", error.ToString());
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    [Fact]
    public void The_sensor_and_a_given_line_are_read_in_si_units()
    {
        var feeder = Read(Examples.Least + """

            [mounting]
            line_angle_deg = -25
            [sensor]
            full_scale_g = 40
            sensitivity_tolerance_percent = 8
            calibration_uncertainty_percent = 1.5
            """);
        Assert.Equal(-25, feeder.LineAngleDegrees);
        Assert.Equal(40 * 9.80665, feeder.Sensor.FullScale!.Value, 9);
        Assert.Equal(0.08, feeder.Sensor.SensitivityTolerance!.Value, 12);
        Assert.Equal(0.015, feeder.Sensor.CalibrationUncertainty!.Value, 12);
    }

    [Fact]
    public void Stacks_may_also_be_written_as_tables()
    {
        var feeder = Read(Examples.Least + """

            [springs]
            modulus_gpa = 205
            length_mm = 120
            width_mm = 75
            rear = [
              { thickness_mm = 4, count = 2 },   # two layers
              { thickness_mm = 3.5, count = 1 },
            ]
            [[springs.front]]
            thickness_mm = 4
            count = 4
            """);
        Assert.Equal([new LeafLayer(0.004, 2), new LeafLayer(0.0035, 1)], feeder.Springs!.Rear);
        Assert.Equal([new LeafLayer(0.004, 4)], feeder.Springs.Front);
    }

    private FeederDescription Read(string text)
    {
        var result = FeederFile.Read(folder.Write("feeder.toml", text));
        Assert.Empty(result.Errors);
        return Assert.IsType<FeederDescription>(result.Value);
    }
}
