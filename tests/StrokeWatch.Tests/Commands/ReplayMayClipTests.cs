using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using StrokeWatch.Commands;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Tests.Measurement.Quality;
using Xunit;

namespace StrokeWatch.Tests.Commands;

/// <summary>A capture whose flat tops a rail or the machine itself may have made: whether the feeder file states the sensor's range decides whether there is a stroke.</summary>
public sealed class ReplayMayClipTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("strokewatch-").FullName;

    public void Dispose() => Directory.Delete(folder, true);

    [Fact]
    public void Without_the_sensors_range_there_is_a_bound_and_what_to_write_into_the_feeder_file_and_with_it_a_stroke()
    {
        var capture = Write();
        var (without, text) = Replay(capture, "");
        Assert.Null(without["stroke"]!["pp_mm"]);
        Assert.Equal("unmeasurable", (string)without["stroke"]!["verdict"]!);
        Assert.Contains("the sensor's range is not stated; the tray moves at least 1.6", (string)without["stroke"]!["reason"]!, StringComparison.Ordinal);
        Assert.All(without["windows"]!.AsArray(), window => Assert.Equal(("noisy", 0), ((string)window!["quality"]!, (int)without["capture"]!["clipped_samples"]!)));
        var finding = without["findings"]!.AsArray().Single(finding => (string)finding!["id"]! == "sensor-clipped")!;
        Assert.Contains("full_scale_g", (string)finding["check_first"]![0]!, StringComparison.Ordinal);
        Assert.Matches(@"bound +at least 1\.6\d\d mm \(0\.06\d\d in\) where the sensor may clip", text);

        var (with, _) = Replay(capture, "full_scale_g = 64");
        Assert.NotNull(with["stroke"]!["pp_mm"]);
        Assert.DoesNotContain("sensor-clipped", with["findings"]!.AsArray().Select(finding => (string)finding!["id"]!));
    }

    private (JsonNode Document, string Text) Replay(string capture, string range)
    {
        var feeder = Path.Combine(folder, "feeder.toml");
        File.WriteAllText(feeder, $"name = \"Sand feeder\"\n[drive]\nsupply_hz = 60\nstrokes_per_cycle = 1\n[stroke]\nlow = \"1.65 mm\"\nhigh = \"1.78 mm\"\nlimit = \"1.90 mm\"\n[sensor]\n{range}\n");
        string Run(params string[] more)
        {
            using StringWriter output = new(), error = new();
            using MemoryStream raw = new();
            CommandLine.Run(["replay", capture, "--feeder", feeder, .. more], new() { Output = output, Error = error, RawOutput = raw, Time = TimeProvider.System });
            Assert.Equal("", error.ToString());
            return more.Length > 0 ? Encoding.UTF8.GetString(raw.ToArray()) : output.ToString();
        }

        return (JsonNode.Parse(Run("--json", "-"))!, Run());
    }

    private string Write()
    {
        var wave = BlurredRailTests.Hidden(1.75e-3);
        var text = new StringBuilder("time_s,x_g,y_g,z_g\n");
        for (var n = 0; n < 3200 * 6; n++)
        {
            var values = wave(n / 3200.0);
            text.Append(CultureInfo.InvariantCulture, $"{n / 3200.0:0.0000000},{values[0] / Gravity.Standard:0.00000},{values[1] / Gravity.Standard:0.00000},{(values[2] / Gravity.Standard) + 1:0.00000}\n");
        }

        var path = Path.Combine(folder, "capture.csv");
        File.WriteAllText(path, text.ToString());
        return path;
    }
}
