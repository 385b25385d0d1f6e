using System.Globalization;
using System.Text.Json.Nodes;
using StrokeWatch.Commands;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Tests.Measurement.Stations;
using Xunit;
using Place = StrokeWatch.Samples.Blocks.SensorPlace;
using Source = StrokeWatch.Tests.Measurement.Stations.Several.Source;

namespace StrokeWatch.Tests.Commands;

public sealed class ReplaySensorsTests : IDisposable
{
    private static readonly Source Front = new(Place.Front, 1.75e-3, 0, []);
    private static readonly Source Rear = new(Place.Rear, 1.70e-3, -5, []);
    private static readonly Source Body = new(Place.Body, 0.85e-3, 178, []);

    private readonly string folder = Directory.CreateTempSubdirectory("strokewatch-").FullName;

    public void Dispose() => Directory.Delete(folder, true);

    [Theory]
    [InlineData(".csv")]
    [InlineData(".wav")]
    public void A_capture_of_nine_channels_gives_each_sensor_their_spread_and_the_tray_against_the_body(string kind)
    {
        var (status, document, text) = Replay(Write([Front, Rear, Body], kind), "front", "rear", "body");
        Assert.Equal(0, status);
        Assert.Equal(1.725, (double)document["stroke"]!["pp_mm"]!, 2e-3);
        var sensors = document["sensors"]!.AsArray();
        Assert.Equal(["front", "rear", "body"], sensors.Select(sensor => (string)sensor!["place"]!));
        Assert.Equal(1.75, (double)sensors[0]!["pp_mm"]!, 2e-3);
        Assert.Equal(-5, (double)sensors[1]!["phase_deg"]!, 0.1);
        Assert.Equal(178, (double)sensors[2]!["phase_deg"]!, 0.1);
        Assert.Equal(0.05, (double)document["spread"]!["front_rear_mm"]!, 2e-3);
        Assert.Equal(100 * 0.05 / 1.725, (double)document["spread"]!["front_rear_percent"]!, 0.15);
        Assert.Null(document["spread"]!["left_right_mm"]);
        Assert.Equal("left to right: sensors at left and right are not both listed", (string)document["spread"]!["reason"]!);
        var relative = Several.Extent(phase => 0.5 * (Front.Displacement(phase) + Rear.Displacement(phase)) - Body.Displacement(phase));
        Assert.Equal(1e3 * relative, (double)document["relative"]!["tray_to_body_pp_mm"]!, 3e-3);
        Assert.Contains("front-rear 0.050 mm (0.0020 in)", text, StringComparison.Ordinal);
        Assert.Contains("phase -5.0°", text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_clipped_and_a_dead_sensor_have_reasons_and_the_others_strokes()
    {
        var rail = 6 * Gravity.Standard;
        Source[] sources =
        [
            Front, Rear with { Read = (_, _, value) => Math.Clamp(value, -rail, rail) }, Rear with { Place = Place.Left, Read = (_, _, _) => 1.5 }, Body with { Read = (_, _, _) => 0.5 },
        ];
        var (status, document, text) = Replay(Write(sources, ".csv"), "front", "rear\"\nfull_scale_g = 6 #\"", "left", "body");
        Assert.Equal(1, status);
        var sensors = document["sensors"]!.AsArray();
        Assert.Equal(1.75, (double)document["stroke"]!["pp_mm"]!, 2e-3);
        Assert.Equal("in-band", (string)document["stroke"]!["verdict"]!);
        Assert.Equal(["good", "clipped", "noisy", "noisy"], sensors.Select(sensor => (string)sensor!["quality"]!));
        Assert.All(sensors.Skip(1), sensor => Assert.Null(sensor!["pp_mm"]));
        Assert.Equal("samples stand at the sensor's rail", (string)sensors[1]!["reason"]!);
        Assert.Equal("the sensor gives the same value again and again", (string)sensors[2]!["reason"]!);
        Assert.Null(document["relative"]!["tray_to_body_pp_mm"]);
        Assert.Contains("same value", (string)document["relative"]!["reason"]!, StringComparison.Ordinal);
        Assert.Contains("the sensor rear gives no stroke", (string)document["spread"]!["reason"]!, StringComparison.Ordinal);
        Assert.Contains("sensor-clipped", document["alarms"]!.AsArray().Select(alarm => (string)alarm!["kind"]!));
        Assert.Contains("The sensor rear stands at the end of its range (at its rail) in", text, StringComparison.Ordinal);
        var silent = document["findings"]!.AsArray().Single(finding => (string)finding!["id"]! == "sensor-silent")!;
        Assert.Equal(["left", "body"], silent["because"]!.AsArray().Select(because => ((string)because!).Split(' ')[2]));
        Assert.StartsWith("Stop the feeder, isolate it", (string)silent["check_first"]![0]!, StringComparison.Ordinal);
    }

    [Fact]
    public void Each_sensors_own_calibration_corrects_its_own_samples()
    {
        File.WriteAllText(Path.Combine(folder, "rear.calibration.toml"), """
            date = "2026-03-14"
            method = "six-position tumble"
            [correction]
            gain_x = [1.05, 0, 0]
            gain_y = [0, 1.05, 0]
            gain_z = [0, 0, 1.05]
            bias_m_s2 = [0.1, 0, -0.2]
            [uncertainty]
            expanded_percent = 0.3
            """);
        double[] bias = [0.1, 0, -0.2];
        var capture = Write([Front, Rear with { Read = (axis, _, value) => 1.05 * value + bias[axis] }, Body], ".csv");
        var (_, document, text) = Replay(capture, "front", "rear\"\ncalibration = \"rear.calibration.toml", "body");
        var sensors = document["sensors"]!.AsArray();
        Assert.Equal(1.70, (double)sensors[1]!["pp_mm"]!, 2e-3);
        Assert.Equal(1.75, (double)sensors[0]!["pp_mm"]!, 2e-3);
        Assert.Equal("2026-03-14", (string)sensors[1]!["calibration"]!["date"]!);
        Assert.Null(sensors[0]!["calibration"]);
        Assert.True((double)sensors[1]!["uncertainty_mm"]! < 0.3 * (double)sensors[0]!["uncertainty_mm"]!);
        Assert.Contains("calibrated: ", text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_reversed_sensor_is_a_phase_of_half_a_turn_and_no_spread()
    {
        var (_, document, _) = Replay(Write([Front, Front with { Place = Place.Rear, Sign = -1 }], ".csv"), "front", "rear");
        Assert.Equal(180, Math.Abs((double)document["sensors"]![1]!["phase_deg"]!), 0.1);
        Assert.InRange((double)document["spread"]!["front_rear_mm"]!, -2e-3, 2e-3);
        Assert.Equal(1.75, (double)document["stroke"]!["pp_mm"]!, 2e-3);
        Assert.Empty(document["findings"]!.AsArray());
    }

    [Fact]
    public void Each_sensor_says_how_it_stands_and_one_that_stands_askew_is_named()
    {
        // Across the tray it moves a fifth as much as along it: atan 0.2 out of the x-z plane. The left sensor hangs upside down.
        var askew = Rear with { Read = (axis, time, value) => axis == 1 ? 0.2 * Rear.Acceleration((2 * Math.PI * Several.Drive * time) + 0.4, Several.Drive) : value };
        var (_, document, text) = Replay(Write([Front, askew, Front with { Place = Place.Left, Sign = -1 }, Body], ".csv"), "front", "rear", "left", "body");
        var stands = document["sensors"]!.AsArray().Select(sensor => sensor!["mounting"]!).ToList();
        Assert.Equal(4, stands.Count);
        Assert.Equal(0, (double)stands[0]["tilt_deg"]!, 0.3);
        Assert.Equal(180, (double)stands[2]["tilt_deg"]!, 0.3);
        Assert.All(stands, mounting => Assert.Equal(Gravity.Standard, (double)mounting["gravity_m_s2"]!, 0.01));
        Assert.Equal(Several.LineDegrees, (double)stands[0]["drive_angle_deg"]!, 0.1);
        Assert.Equal(Several.LineDegrees, (double)stands[3]["measured_line_angle_deg"]!, 0.1);
        Assert.Equal(Math.Atan(0.2) * 180 / Math.PI, (double)stands[1]["out_of_plane_deg"]!, 0.1);
        Assert.Null(document["mounting"]!["tilt_deg"]);
        Assert.Contains("told for each of them", (string)document["mounting"]!["reason"]!, StringComparison.Ordinal);
        var finding = document["findings"]!.AsArray().Single(finding => (string)finding!["id"]! == "sensor-askew")!;
        var because = Assert.Single(finding["because"]!.AsArray());
        Assert.StartsWith("At the sensor rear the line of action stands 11.3°", (string)because!, StringComparison.Ordinal);
        Assert.Contains("sensor's z axis 180.0°", text, StringComparison.Ordinal);
        Assert.Equal(4, text.Split('\n').Count(line => line.Contains("above its x axis, ellipse ratio", StringComparison.Ordinal)));
    }

    [Fact]
    public void A_listed_sensor_that_the_capture_lacks_is_one_line_with_the_columns_there_are()
    {
        var (status, errors) = Refused(Write([Front, Rear], ".csv"), "front", "rear", "body");
        Assert.Equal(2, status);
        var line = Assert.Single(errors.Trim().Split('\n'));
        Assert.Contains("no column is named after the sensor body", line, StringComparison.Ordinal);
        Assert.Contains("2 'front_x_g', 3 'front_y_g'", line, StringComparison.Ordinal);
    }

    [Fact]
    public void A_feeder_file_with_one_sensor_writes_none_of_the_keys_of_several()
    {
        var capture = Write([Front], ".csv", single: true);
        var (_, document, text) = Replay(capture);
        Assert.Null(document["sensors"]);
        Assert.Null(document["spread"]);
        Assert.Null(document["relative"]);
        Assert.DoesNotContain("front-rear", text, StringComparison.Ordinal);
    }

    private string Write(Source[] sources, string kind, bool single = false)
    {
        var path = Path.Combine(folder, $"capture{kind}");
        var settings = Several.Settings(sources);
        Place[] places = single ? [] : [.. sources.SelectMany(source => source.Axes.Select(_ => source.Place))];
        using ICaptureWriter writer = CaptureWriters.Create(path, settings.Axes, Several.Rate, null, places);
        Several.Blocks(sources, 20, 3).ForEach(writer.Write);
        return path;
    }

    private (int Status, JsonNode Document, string Text) Replay(string capture, params string[] sensors)
    {
        var (status, output, _, raw) = Run(capture, sensors, "--json", "-");
        Assert.Equal("", output);
        return (status, JsonNode.Parse(raw)!, Run(capture, sensors).Output);
    }

    private (int Status, string Errors) Refused(string capture, params string[] sensors)
    {
        var (status, _, errors, _) = Run(capture, sensors);
        return (status, errors);
    }

    private (int Status, string Output, string Errors, byte[] Raw) Run(string capture, string[] sensors, params string[] more)
    {
        var feeder = Path.Combine(folder, "feeder.toml");
        File.WriteAllText(feeder, """
            name = "Cullet feeder"
            [drive]
            supply_hz = 50
            strokes_per_cycle = 1
            [stroke]
            low = "1.65 mm"
            high = "1.78 mm"
            limit = "1.90 mm"

            """ + string.Concat(sensors.Select(sensor => string.Create(CultureInfo.InvariantCulture, $"[[sensors]]\nplace = \"{sensor}\"\n"))));
        using var output = new StringWriter();
        using var error = new StringWriter();
        using var raw = new MemoryStream();
        var status = CommandLine.Run(["replay", capture, "--feeder", feeder, .. more], new() { Output = output, Error = error, RawOutput = raw, Time = TimeProvider.System });
        return (status, output.ToString(), error.ToString(), raw.ToArray());
    }
}
