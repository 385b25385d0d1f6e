using StrokeWatch.Configuration;
using StrokeWatch.Configuration.Toml;
using StrokeWatch.Samples.Calibration;
using Xunit;

namespace StrokeWatch.Tests.Configuration;

public sealed class CalibrationFileTests : IDisposable
{
    private const string Good = """
        date = "2026-03-14"
        method = "six-position tumble"
        [correction]
        gain_x = [1.002, 0.009, -0.010]
        gain_y = [0.008, 0.994, 0.009]
        gain_z = [-0.024, 0.014, 1.030]
        bias_m_s2 = [0.19, 0.04, 0.06]
        [uncertainty]
        expanded_percent = 1.2
        """;

    private readonly ConfigurationFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public void What_is_written_is_read_again()
    {
        var calibration = new SensorCalibration
        {
            Date = new(2026, 3, 14),
            Method = "six-position tumble",
            Gain = [1.00223456789, 1e-7, -0.01, 0.008, 0.994, 0.009, -0.024, 0.014, 1.03],
            Bias = [0.19, -0.04, 1e-6],
            ExpandedUncertainty = 0.012345,
            DegreesOfFreedom = 31.25,
        };
        var writer = new CalibrationWriter(calibration, 9.8123);
        writer.Budget(new([new("repeatability", 0.0061725, 1, 31.25, "a \"quoted\" \\ basis\twith a tab")]), 2);
        writer.Table("[residuals]", ("deviation_m_s2", "0.01"), ("largest_m_s2", "0.02"));
        writer.Table("[[position]]", ("name", "\"x+\""), ("file", CalibrationWriter.Quoted(@"C:\lying ""on its side"".csv")), ("samples", "3200"));
        writer.Table("[[position]]", ("name", "\"x-\""), ("mean_m_s2", "[1, 2.5, 3]"));
        var (read, errors) = Read(writer.ToString());

        Assert.Empty(errors);
        Assert.Equal((calibration.Date, calibration.Method), (read!.Date, read.Method));
        Assert.Equal(calibration.Gain, read.Gain);
        Assert.Equal(calibration.Bias, read.Bias);
        Assert.Equal(0.012345, read.ExpandedUncertainty, 12);
        Assert.Equal(31.25, read.DegreesOfFreedom);
        Assert.Equal("six-position tumble, 2026-03-14", read.ToString());
        Assert.Equal(0.024 / 1.03, read.LargestCrossGain, 12);
    }

    [Fact]
    public void A_file_written_by_hand_needs_only_day_method_correction_and_uncertainty()
    {
        var (read, errors) = Read(Good);
        Assert.Empty(errors);
        Assert.Equal(double.PositiveInfinity, read!.DegreesOfFreedom);
    }

    [Fact]
    public void All_errors_of_a_calibration_are_said_at_once()
    {
        var (read, errors) = Read("""
            date = "14.3.2026"
            metod = "tumble"
            [correction]
            gain_x = [1, 0]
            gain_y = [0, 1, "0"]
            gain_z = [0, 0, 1]
            [uncertainty]
            expanded_percent = -1
            """);

        Assert.Null(read);
        Assert.Equal(
            [
                "1: `method` is missing in the file; how the sensor was calibrated, in words, was expected",
                "1: `date` is \"14.3.2026\"; a day in quotes such as \"2026-03-14\" was expected",
                "2: unknown key `metod`; did you mean `method`?",
                "3: `bias_m_s2` is missing in [correction]; a list of three numbers, what x, y and z read at no acceleration, in m/s², was expected",
                "4: `correction.gain_x` is a list; a list of 3 numbers was expected",
                "5: `correction.gain_y` is \"0\"; a number from -100 to 100 was expected",
                "8: `uncertainty.expanded_percent` is -1; a number from 0 to 50 percent (k = 2) was expected",
            ],
            errors.Select(error => error.Split(" Known")[0]));
    }

    [Fact]
    public void A_gain_without_an_inverse_is_refused()
    {
        var (read, errors) = Read(Good.Replace("gain_y = [0.008, 0.994, 0.009]", "gain_y = [1.002, 0.009, -0.010]", StringComparison.Ordinal));
        Assert.Null(read);
        Assert.StartsWith("4: gain_x, gain_y and gain_z have no inverse", Assert.Single(errors), StringComparison.Ordinal);
    }

    [Fact]
    public void A_feeder_file_takes_up_the_calibration_beside_it()
    {
        folder.Write("sensor.calibration.toml", Good);
        var read = Feeder("calibration = \"sensor.calibration.toml\"\ncross_axis_percent = 1.5\ntiming_jitter_us = 20\nbandwidth_hz = 400\nbandwidth_poles = 1");

        Assert.Empty(read.Errors);
        var sensor = read.Value!.Sensor;
        Assert.Equal(new DateOnly(2026, 3, 14), sensor.Calibration!.Date);
        Assert.Equal(0.012, sensor.Calibration.ExpandedUncertainty, 12);
        Assert.Equal(0.015, sensor.CrossAxis!.Value, 12);
        Assert.Equal(20e-6, sensor.TimingJitterSeconds!.Value, 12);
        Assert.Equal((400.0, 1), (sensor.BandwidthHz!.Value, sensor.BandwidthPoles));
        Assert.Null(sensor.CalibrationUncertainty);
    }

    [Fact]
    public void A_missing_calibration_and_the_feeder_files_own_errors_are_said_together()
    {
        var read = Feeder("calibration = \"lost.toml\"\nfull_scale_g = -1");
        Assert.Null(read.Value);
        Assert.Equal(2, read.Errors.Count);
        Assert.Contains("full_scale_g", read.Errors[0].Message, StringComparison.Ordinal);
        Assert.Equal($"{folder.At("lost.toml")}: there is no such file; check the path", read.Errors[1].ToString());
    }

    [Fact]
    public void A_calibration_beside_an_uncertainty_of_its_own_is_refused()
    {
        folder.Write("sensor.calibration.toml", Good);
        var read = Feeder("calibration = \"sensor.calibration.toml\"\ncalibration_uncertainty_percent = 0.5");
        Assert.Contains("stands beside `calibration`", Assert.Single(read.Errors).Message, StringComparison.Ordinal);
    }

    private (SensorCalibration? Calibration, IReadOnlyList<string> Errors) Read(string text)
    {
        var path = folder.Write("one.toml", text);
        var errors = new ConfigurationErrors(path);
        var read = CalibrationFile.Read(path, errors);
        return (read, [.. errors.Select(error => error.ToString()[(path.Length + 1)..])]);
    }

    private ConfigurationResult<StrokeWatch.Machine.Feeder.FeederDescription> Feeder(string sensor) => FeederFile.Read(folder.Write("cullet.feeder.toml", $"""
        name = "Cullet feeder"
        [drive]
        supply_hz = 50
        strokes_per_cycle = 1
        [stroke]
        low = "1.65 mm"
        high = "1.78 mm"
        [sensor]
        {sensor}
        """));
}
