using StrokeWatch.Configuration;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Quantities;
using Xunit;

namespace StrokeWatch.Tests.Configuration;

public sealed class SensorsPartTests : IDisposable
{
    private readonly ConfigurationFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public void Sensors_are_read_with_their_columns_and_what_is_known_of_them()
    {
        var feeder = FeederFile.Read(folder.Write("a.toml", Examples.Least + """

            [[sensors]]
            place = "front"
            full_scale_g = 16
            sensitivity_tolerance_percent = 1.5
            [[sensors]]
            place = "rear-left"
            columns = ["rx", "rz"]
            axes = ["x", "z"]
            [[sensors]]
            place = "body"
            channels = [7, 8, 9]
            calibration_uncertainty_percent = 0.4
            """));
        Assert.Empty(feeder.Errors);
        var sensors = feeder.Value!.Sensors;
        Assert.Equal([SensorPlace.Front, SensorPlace.RearLeft, SensorPlace.Body], sensors.Select(sensor => sensor.Place));
        Assert.Equal((16 * Gravity.Standard, 0.015), (sensors[0].Sensor.FullScale!.Value, sensors[0].Sensor.SensitivityTolerance!.Value));
        Assert.Empty(sensors[0].Columns);
        Assert.Equal([new(ColumnRole.X, null, "rx") { Place = SensorPlace.RearLeft }, new(ColumnRole.Z, null, "rz") { Place = SensorPlace.RearLeft }], sensors[1].Columns);
        Assert.Equal([7, 8, 9], sensors[2].Columns.Select(column => column.Number!.Value));
        Assert.Equal(0.004, sensors[2].Sensor.CalibrationUncertainty);
        Assert.Equal(new(), feeder.Value.Sensor);
    }

    [Theory]
    [InlineData("[[sensors]]\nplace = \"front\"\n[sensor]\nfull_scale_g = 16", "8: `[[sensors]]` stands beside `[sensor]`; one of the two was expected")]
    [InlineData("[[sensors]]\nplace = \"body\"", "8: no sensor of [[sensors]] sits on the tray")]
    [InlineData("[[sensors]]\nplace = \"front\"\n[[sensors]]\nplace = \"front\"", "11: the place \"front\" is given twice, first on line 9")]
    [InlineData("[[sensors]]\nplace = \"middle\"", "9: `sensors.place` is \"middle\"; \"front\" or \"rear\"")]
    [InlineData("[[sensors]]\ncolumns = [1]", "8: `place` is missing in [sensors]")]
    [InlineData("[[sensors]]\nplace = \"front\"\ncolumns = [1, 2, 3, 4]", "10: `sensors.columns` is a list; a list of 1 to 3 columns")]
    [InlineData("[[sensors]]\nplace = \"front\"\ncolumns = [0]", "10: `sensors.columns` is a list; a list of 1 to 3 columns")]
    [InlineData("[[sensors]]\nplace = \"front\"\ncolumns = [2, 2]", "10: a column is given twice")]
    [InlineData("[[sensors]]\nplace = \"front\"\nchannels = [\"x\"]", "10: `sensors.channels` is a list; a list of 1 to 3 channels")]
    [InlineData("[[sensors]]\nplace = \"front\"\ncolumns = [1]\nchannels = [1]", "11: `channels` stands beside `columns`")]
    [InlineData("[[sensors]]\nplace = \"front\"\ncolumns = [1, 2]\naxes = [\"x\"]", "11: `axes` does not go with its columns")]
    [InlineData("[[sensors]]\nplace = \"front\"\naxes = [\"x\"]", "10: `axes` stands without `columns`")]
    [InlineData("[[sensors]]\nplace = \"front\"\nfull_scale = 3", "10: unknown key `full_scale` in [sensors]; did you mean `full_scale_g`?")]
    public void Each_mistake_is_said_at_its_line(string lines, string expected)
    {
        var errors = FeederFile.Read(folder.Write("a.toml", Examples.Least + "\n\n" + lines)).Errors.Select(error => $"{error.Line}: {error.Message}").ToList();
        Assert.Contains(errors, error => error.StartsWith(expected, StringComparison.Ordinal));
        Assert.Single(errors);
    }

    [Fact]
    public void All_mistakes_come_at_once_those_of_a_calibration_under_its_own_name()
    {
        folder.Write("c.calibration.toml", "date = \"no day\"");
        var errors = FeederFile.Read(folder.Write("a.toml", Examples.Least + """

            [[sensors]]
            place = "front"
            calibration = "c.calibration.toml"
            [[sensors]]
            place = "front"
            cross_axis_percent = -1
            """)).Errors;
        Assert.Contains(errors, error => error.File.EndsWith("c.calibration.toml", StringComparison.Ordinal));
        Assert.Equal([11, 12], errors.Where(error => error.File.EndsWith("a.toml", StringComparison.Ordinal)).Select(error => error.Line));
    }
}
