using System.Text.Json.Nodes;
using Microsoft.Extensions.Time.Testing;
using StrokeWatch.Commands;
using StrokeWatch.Configuration;
using StrokeWatch.Configuration.Toml;
using StrokeWatch.Samples.Calibration;
using StrokeWatch.Tests.Configuration;
using StrokeWatch.Tests.Measurement.Calibration;
using StrokeWatch.Tests.Measurement.Stations;
using Xunit;
using Place = StrokeWatch.Samples.Blocks.SensorPlace;

namespace StrokeWatch.Tests.Commands;

public sealed class CalibrateCommandTests : IDisposable
{
    private const double True = 1.7e-3;

    private readonly ConfigurationFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public void A_tumble_finds_gain_and_bias_and_a_replay_with_it_finds_the_true_stroke()
    {
        var (status, output, error) = Run(
            "calibrate", "tumble", "--positions", GlassWorksSensor.Tumble(folder.Path), "--out", folder.At("sensor.calibration.toml"), "--gravity-m-s2", "9.80665", "--tilt-deg", "0.2");
        Assert.Equal((0, ""), (status, error));
        Assert.Contains("six-position tumble, 2026-03-14", output, StringComparison.Ordinal);
        Assert.Contains("calibration = \"sensor.calibration.toml\"", output, StringComparison.Ordinal);
        var found = Calibration();
        for (var i = 0; i < 9; i++)
        {
            // 3200 samples of 0.002 g of noise each side: 0.000025 g.
            Assert.Equal(TumbleTests.Gain[i], found.Gain[i], 2e-4);
        }

        for (var i = 0; i < 3; i++)
        {
            Assert.Equal(TumbleTests.Bias[i] * 9.80665, found.Bias[i], 2e-3);
        }

        GlassWorksSensor.Feeder(folder.At("run.csv"), True);
        var raw = Replay("");
        var calibrated = Replay("calibration = \"sensor.calibration.toml\"");
        Assert.True(Math.Abs(Stroke(raw) / 1.7 - 1) > 0.003, $"the sensor's faults show in the stroke: {Stroke(raw)} mm");
        Assert.Equal(1.7, Stroke(calibrated), 1.7 * 2e-4);
        Assert.Equal(25, (double)calibrated["stroke"]!["line_angle_deg"]!, 0.05);
        Assert.True(raw.AsObject().ContainsKey("calibration"));
        Assert.Null(raw["calibration"]);
        Assert.Equal("2026-03-14", (string)calibrated["calibration"]!["date"]!);
        Assert.Equal("six-position tumble", (string)calibrated["calibration"]!["method"]!);
        Assert.Empty(calibrated["stroke"]!["uncertainty_assumptions"]!.AsArray());
    }

    [Fact]
    public void The_calibrations_uncertainty_goes_into_the_budget_and_the_budget_into_the_uncertainty()
    {
        _ = Run("calibrate", "tumble", "--positions", GlassWorksSensor.Tumble(folder.Path), "--out", folder.At("sensor.calibration.toml"));
        GlassWorksSensor.Feeder(folder.At("run.csv"), True);
        var stroke = Replay("calibration = \"sensor.calibration.toml\"\ntiming_jitter_us = 100\ncross_axis_percent = 1")["stroke"]!;
        var budget = stroke["budget"]!.AsArray().ToDictionary(part => (string)part!["contribution"]!, part => part!);

        Assert.Equal(
            ["noise", "repeatability", "sensitivity", "drive-frequency", "alignment", "cross-axis", "timing-jitter", "resolution"], budget.Keys);
        Assert.Equal("calibrated on 2026-03-14 (six-position tumble)", (string)budget["sensitivity"]["basis"]!);
        Assert.Equal(50 * Calibration().ExpandedUncertainty, (double)budget["sensitivity"]["relative_percent"]!, 6);
        Assert.Null(budget["noise"]["degrees_of_freedom"]);
        Assert.True((double)budget["repeatability"]["degrees_of_freedom"]! >= 5);

        // 1 − exp(−(2π·50 Hz·100 µs)²/2) over √3; 1 % over √3 times √(2/3).
        Assert.Equal(100 * 4.93358e-4 / Math.Sqrt(3), (double)budget["timing-jitter"]["relative_percent"]!, 5);
        Assert.Equal(Math.Sqrt(2.0 / 9), (double)budget["cross-axis"]["relative_percent"]!, 1e-6);
        var squares = budget.Values.Sum(part => Math.Pow((double)part["standard_uncertainty_mm"]!, 2));
        Assert.Equal((double)stroke["uncertainty_mm"]!, 2 * Math.Sqrt(squares), 1e-6);
        Assert.All(budget.Values, part => Assert.Equal(
            (double)part["relative_percent"]!, 100 * (double)part["standard_uncertainty_mm"]! / (double)stroke["pp_mm"]!, 1e-4));
    }

    [Fact]
    public void A_comparison_brings_the_stroke_to_the_references_also_over_a_tumble()
    {
        GlassWorksSensor.Feeder(folder.At("run.csv"), True);
        folder.Write("cullet.feeder.toml", GlassWorksSensor.FeederFile(""));
        var (status, output, error) = Compare("sensor.calibration.toml", "1.700 mm", "0.004 mm");
        Assert.Equal((0, ""), (status, error));
        Assert.Contains("one-point comparison, 2025-11-30", output, StringComparison.Ordinal);
        var first = Calibration();
        Assert.Equal(0, first.Gain[1]);
        Assert.Equal(1.7, Stroke(Replay("calibration = \"sensor.calibration.toml\"")), 2e-6);
        // The reference's own 0.004 mm and the mains' 0.04 %, k = 2, are the least; a line found from three axes adds next to nothing.
        Assert.InRange(first.ExpandedUncertainty, Math.Sqrt(Math.Pow(0.004 / 1.7, 2) + Math.Pow(8e-4, 2)), 0.006);

        // Over a calibration in force: K is scaled as a whole and the cross-axis gain stays corrected.
        _ = Run("calibrate", "tumble", "--positions", GlassWorksSensor.Tumble(folder.Path), "--out", folder.At("sensor.calibration.toml"));
        var tumble = Calibration();
        folder.Write("cullet.feeder.toml", GlassWorksSensor.FeederFile("calibration = \"sensor.calibration.toml\""));
        (status, _, error) = Compare("second.calibration.toml", "0.0670 in", "0.2 mil");
        Assert.Equal((0, ""), (status, error));
        var second = Calibration("second.calibration.toml");
        Assert.Equal(0.067 * 25.4, Stroke(Replay("calibration = \"second.calibration.toml\"")), 2e-6);
        Assert.Equal(second.Gain[0] / tumble.Gain[0], second.Gain[6] / tumble.Gain[6], 6);
        Assert.Equal(tumble.Bias, second.Bias);
        Assert.Equal("one-point comparison after a calibration", second.Method);
        Assert.Contains("before = \"six-position tumble, 2026-03-14\"", File.ReadAllText(folder.At("second.calibration.toml")), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("rear", 1.70)]
    [InlineData("body", 0.85)]
    public void One_of_several_sensors_is_brought_to_a_reference_at_its_place(string place, double stroke)
    {
        Several.Source[] sources = [new(Place.Front, 1.75e-3, 0, []), new(Place.Rear, 1.05 * 1.70e-3, 0, []), new(Place.Body, 1.05 * 0.85e-3, 180, [])];
        var settings = Several.Settings(sources);
        using (var writer = CaptureWriters.Create(folder.At("three.csv"), settings.Axes, Several.Rate, null, [.. sources.SelectMany(source => source.Axes.Select(_ => source.Place))]))
        {
            Several.Blocks(sources, 5, 3).ForEach(writer.Write);
        }

        string Feeder(string more) => GlassWorksSensor.FeederFile("").Split("[sensor]")[0] + $"[[sensors]]\nplace = \"front\"\n[[sensors]]\nplace = \"rear\"\n{(place == "rear" ? more : "")}[[sensors]]\nplace = \"body\"\n{(place == "body" ? more : "")}";
        folder.Write("cullet.feeder.toml", Feeder(""));
        string[] compare = ["calibrate", "compare", "--capture", folder.At("three.csv"), "--feeder", folder.At("cullet.feeder.toml"), "--reference-stroke", FormattableString.Invariant($"{stroke} mm"), "--reference-uncertainty", "0.004 mm", "--out", folder.At("own.calibration.toml")];
        var (status, _, error) = Run(compare);
        Assert.Equal(2, status);
        Assert.EndsWith("a comparison calibrates one of them: give --place front or rear or body", error.Trim(), StringComparison.Ordinal);
        (status, _, error) = Run([.. compare, "--place", "left"]);
        Assert.Equal(2, status);
        Assert.Contains("'left' is no sensor of", Assert.Single(error.Trim().Split('\n')), StringComparison.Ordinal);
        (status, var output, error) = Run([.. compare, "--place", place]);
        Assert.Equal((0, ""), (status, error));
        Assert.Contains($"under [[sensors]] with place = \"{place}\"", output, StringComparison.Ordinal);
        Assert.Contains($"place = \"{place}\"", File.ReadAllText(folder.At("own.calibration.toml")), StringComparison.Ordinal);
        Assert.Equal(1.05, Calibration("own.calibration.toml").Gain[0], 1e-3);

        folder.Write("cullet.feeder.toml", Feeder("calibration = \"own.calibration.toml\"\n"));
        using var raw = new MemoryStream();
        _ = Run(raw, "replay", folder.At("three.csv"), "--feeder", folder.At("cullet.feeder.toml"), "--json", "-");
        var own = JsonNode.Parse(raw.ToArray())!["sensors"]!.AsArray().Single(sensor => (string)sensor!["place"]! == place)!;
        Assert.Equal(stroke, (double)own["pp_mm"]!, 1e-5);
        Assert.NotNull(own["calibration"]);
    }

    [Fact]
    public void A_table_of_the_budget_is_printed_for_a_person()
    {
        GlassWorksSensor.Feeder(folder.At("run.csv"), True);
        folder.Write("cullet.feeder.toml", GlassWorksSensor.FeederFile("sensitivity_tolerance_percent = 3"));
        var (_, output, _) = Run("replay", folder.At("run.csv"), "--feeder", folder.At("cullet.feeder.toml"), "--budget");
        var lines = output.Split('\n').SkipWhile(line => !line.StartsWith("  budget ", StringComparison.Ordinal)).ToArray();

        Assert.Contains(" mm (0.06", lines[0], StringComparison.Ordinal);
        Assert.Matches(@"contribution +u, mm +u, in +u, % +ν +share, % +known from", lines[1]);
        Assert.Contains(lines, line => line.Contains("datasheet tolerance 3 %, rectangular", StringComparison.Ordinal) && line.Contains(" 1.7321 ", StringComparison.Ordinal));
        Assert.Contains(lines, line => line.Trim().StartsWith("combined", StringComparison.Ordinal));
        Assert.Contains(lines, line => line.Contains("expanded, k = 2.00: 0.059 mm (0.0023 in)", StringComparison.Ordinal) && line.Contains("covers 95.4 %", StringComparison.Ordinal));
        Assert.Contains(lines, line => line.Contains("expanded, k = 1.96", StringComparison.Ordinal));
    }

    [Fact]
    public void A_sensor_that_moved_or_lay_otherwise_is_told_by_file()
    {
        var positions = GlassWorksSensor.Tumble(folder.Path, hummingG: 0.2).Replace("x-=", "y+=", StringComparison.Ordinal).Replace("yup.csv", "xdown.csv", StringComparison.Ordinal);
        positions = positions.Replace($"y+={folder.At("xdown.csv")},y+", "x-=" + folder.At("yup.csv") + ",y+", StringComparison.Ordinal);
        var (status, output, error) = Run("calibrate", "tumble", "--positions", positions, "--out", folder.At("sensor.calibration.toml"));

        Assert.Equal((2, ""), (status, output));
        var lines = error.Split('\n', StringSplitOptions.RemoveEmptyEntries);
        Assert.Equal(3, lines.Length);
        Assert.StartsWith($"{folder.At("yup.csv")}: is given as x-, but gravity stands on y+ (", lines[0], StringComparison.Ordinal);
        Assert.StartsWith($"{folder.At("xdown.csv")}: is given as y+, but gravity stands on x- (", lines[1], StringComparison.Ordinal);
        Assert.StartsWith($"{folder.At("zdown.csv")}: the sensor was not still in position z-: x scatters by 0.1", lines[2], StringComparison.Ordinal);
        Assert.False(File.Exists(folder.At("sensor.calibration.toml")));
    }

    [Theory]
    [InlineData("strokewatch calibrate tumble: --positions: 'x=a.csv' is no position; write x+=FILE", "--positions", "x=a.csv")]
    [InlineData("strokewatch calibrate tumble: --positions: x+ is given twice", "--positions", "x+=a.csv,x+=b.csv")]
    [InlineData("strokewatch calibrate tumble: --positions: y-, z+, z- missing; give each", "--positions", "x+=a,x-=b,y+=c")]
    [InlineData("strokewatch calibrate tumble: --date: '14.3.2026' is no day; write it as in", "--date", "14.3.2026")]
    [InlineData("strokewatch calibrate tumble: --gravity-m-s2 and --latitude exclude each other", "--gravity-m-s2", "9.81", "--latitude", "48")]
    [InlineData("strokewatch calibrate tumble: --height-m stands without --latitude", "--height-m", "300")]
    [InlineData("strokewatch calibrate tumble: --latitude: '91' is no number from -90 to 90", "--latitude", "91")]
    [InlineData("strokewatch calibrate tumble: --unit: 'feet' is not known", "--unit", "feet")]
    public void A_wrong_word_of_a_tumble_is_one_line(string begins, params string[] options)
    {
        var positions = options[0] == "--positions" ? [] : (string[])["--positions", GlassWorksSensor.Tumble(folder.Path)];
        var (status, output, error) = Run(["calibrate", "tumble", .. positions, "--out", folder.At("out.toml"), .. options]);

        Assert.Equal((2, ""), (status, output));
        Assert.StartsWith(begins, Assert.Single(error.Split('\n', StringSplitOptions.RemoveEmptyEntries)), StringComparison.Ordinal);
        Assert.False(File.Exists(folder.At("out.toml")));
    }

    [Theory]
    [InlineData(2, "--reference-stroke: '1.7' is no length above 0 with its unit", "1.7", "0.004 mm")]
    [InlineData(2, "--reference-uncertainty: 1.800 mm (0.0709 in) is not below the stroke", "1.7 mm", "1.8 mm")]
    [InlineData(2, "1.99 times the reference's 0.850 mm (0.0335 in); that is no sensitivity: check the units, and that both are peak to peak", "0.85 mm", "0.004 mm")]
    public void A_wrong_reference_is_one_line(int expected, string says, string stroke, string uncertainty)
    {
        GlassWorksSensor.Feeder(folder.At("run.csv"), True);
        folder.Write("cullet.feeder.toml", GlassWorksSensor.FeederFile(""));
        var (status, output, error) = Compare("out.toml", stroke, uncertainty);

        Assert.Equal((expected, ""), (status, output));
        Assert.Contains(says, Assert.Single(error.Split('\n', StringSplitOptions.RemoveEmptyEntries)), StringComparison.Ordinal);
        Assert.False(File.Exists(folder.At("out.toml")));
    }

    [Fact]
    public void A_feeder_at_rest_gives_nothing_to_compare()
    {
        GlassWorksSensor.Feeder(folder.At("run.csv"), 1e-9);
        folder.Write("cullet.feeder.toml", GlassWorksSensor.FeederFile(""));
        var (status, output, error) = Compare("out.toml", "1.7 mm", "0.004 mm");

        Assert.Equal((3, ""), (status, output));
        Assert.Contains("run.csv: no stroke to compare: the tray stands still", error, StringComparison.Ordinal);
    }

    [Fact]
    public void A_folder_that_is_not_there_is_told()
    {
        var (status, _, error) = Run("calibrate", "tumble", "--positions", GlassWorksSensor.Tumble(folder.Path), "--out", folder.At("nowhere/out.toml"));
        Assert.Equal(2, status);
        Assert.Contains("the calibration cannot be written", Assert.Single(error.Split('\n', StringSplitOptions.RemoveEmptyEntries)), StringComparison.Ordinal);
    }

    private static double Stroke(JsonNode document) => (double)document["stroke"]!["pp_mm"]!;

    private SensorCalibration Calibration(string name = "sensor.calibration.toml")
    {
        var errors = new ConfigurationErrors(folder.At(name));
        var read = CalibrationFile.Read(errors.File, errors);
        Assert.Empty(errors);
        return read!;
    }

    private (int Status, string Output, string Error) Compare(string target, string stroke, string uncertainty) => Run(
        "calibrate", "compare", "--capture", folder.At("run.csv"), "--feeder", folder.At("cullet.feeder.toml"),
        "--reference-stroke", stroke, "--reference-uncertainty", uncertainty, "--out", folder.At(target), "--date", "2025-11-30");

    private JsonNode Replay(string sensor)
    {
        folder.Write("cullet.feeder.toml", GlassWorksSensor.FeederFile(sensor));
        using var raw = new MemoryStream();
        _ = Run(raw, "replay", folder.At("run.csv"), "--feeder", folder.At("cullet.feeder.toml"), "--json", "-");
        return JsonNode.Parse(raw.ToArray())!;
    }

    private static (int Status, string Output, string Error) Run(params string[] arguments) => Run(new MemoryStream(), arguments);

    private static (int Status, string Output, string Error) Run(Stream raw, params string[] arguments)
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        var time = new FakeTimeProvider(new(2026, 3, 14, 9, 0, 0, TimeSpan.Zero));
        var status = CommandLine.Run(arguments, new() { Output = output, Error = error, RawOutput = raw, Time = time });
        return (status, output.ToString(), error.ToString());
    }
}
