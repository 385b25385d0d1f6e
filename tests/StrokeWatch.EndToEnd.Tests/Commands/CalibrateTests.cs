using System.Globalization;
using System.Text.Json.Nodes;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Samples.Sources;
using Xunit;

namespace StrokeWatch.EndToEnd.Tests.Commands;

/// <summary>A sensor with a wrong gain reads a simulated feeder; the built program calibrates it and finds the simulation's truth.</summary>
public sealed class CalibrateTests : IDisposable
{
    private const double Rate = 1000;

    private static readonly double[,] Gain = { { 1.04, 0.02, -0.01 }, { 0.01, 0.97, 0.015 }, { -0.03, 0.02, 1.05 } };

    private static readonly double[] Bias = [0.05, -0.02, 0.03];

    private readonly TempFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public async Task A_tumble_brings_a_faulty_sensor_to_the_truth_within_its_stated_uncertainty()
    {
        Misread("steady-50hz");
        var truth = (double)Repository.Truth("steady-50hz")["stroke"]!["pp_mm"]!;
        var before = await Replay("");
        Assert.True(Math.Abs((double)before["stroke"]!["pp_mm"]! / truth - 1) > 0.02);
        Assert.Null(before["calibration"]);

        var positions = string.Join(',', from axis in Enumerable.Range(0, 3) from up in (bool[])[true, false] select Rest(axis, up));
        var made = await Running.Run(
            folder.Path, "calibrate", "tumble", "--positions", positions, "--out", "sensor.calibration.toml", "--date", "2026-03-14",
            "--tilt-deg", "0.2", "--gravity-m-s2", "9.80665");
        Assert.Equal((0, ""), (made.Status, made.Error));
        Assert.Contains("sensor.calibration.toml: six-position tumble, 2026-03-14", made.Out, StringComparison.Ordinal);

        var after = await Replay("calibration = \"sensor.calibration.toml\"");
        Contract.Check(after);
        var stroke = after["stroke"]!;
        Assert.Equal(truth, (double)stroke["pp_mm"]!, 0.001 * truth);
        Assert.True((double)stroke["uncertainty_mm"]! < 0.5 * (double)before["stroke"]!["uncertainty_mm"]!);
        Assert.Equal("2026-03-14", (string)after["calibration"]!["date"]!);
        Assert.Equal("six-position tumble", (string)after["calibration"]!["method"]!);
        Assert.Contains(stroke["budget"]!.AsArray(), part => (string)part!["basis"]! == "calibrated on 2026-03-14 (six-position tumble)");

        var text = await Running.Run(folder.Path, "replay", "misread.csv", "--feeder", "cullet.feeder.toml", "--budget");
        Assert.Equal((0, ""), (text.Status, text.Error));
        Assert.Contains("calibrated on 2026-03-14 (six-position tumble)", text.Out, StringComparison.Ordinal);
        Assert.Contains("expanded, k = 2.00: ", text.Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_comparison_brings_it_to_the_references_stroke()
    {
        Misread("steady-50hz");
        var truth = (double)Repository.Truth("steady-50hz")["stroke"]!["pp_mm"]!;
        _ = await Replay("");
        var made = await Running.Run(
            folder.Path, "calibrate", "compare", "--capture", "misread.csv", "--feeder", "cullet.feeder.toml",
            "--reference-stroke", string.Create(CultureInfo.InvariantCulture, $"{truth:0.000000} mm"), "--reference-uncertainty", "0.004 mm", "--out", "sensor.calibration.toml");
        Assert.Equal((0, ""), (made.Status, made.Error));
        Assert.Equal(truth, (double)(await Replay("calibration = \"sensor.calibration.toml\""))["stroke"]!["pp_mm"]!, 1e-5);
    }

    [Fact]
    public async Task A_calibration_with_slips_of_the_pen_is_refused_with_all_of_them()
    {
        folder.Write("sensor.calibration.toml", "date = \"soon\"\nmethod = \"by eye\"\n[correction]\ngain_x = [1, 0, 0]\ngain_y = [0, 1, 0]\ngain_z = [0, 0, 1]\nbias = [0, 0, 0]\n[uncertainty]\nexpanded_percent = 99\n");
        folder.Write("cullet.feeder.toml", Feeder("calibration = \"sensor.calibration.toml\""));
        var outcome = await Running.Run(folder.Path, "check", "--feeder", "cullet.feeder.toml");
        outcome.ShouldRefuse(2, 4);
        Assert.All(outcome.ErrorLines, line => Assert.StartsWith("sensor.calibration.toml:", line, StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_calibration_without_its_captures_names_them()
    {
        Rest(0, true);
        var outcome = await Running.Run(
            folder.Path, "calibrate", "tumble", "--positions", "x+=x1.csv,x-=lost.csv,y+=x1.csv,y-=lost.csv,z+=x1.csv,z-=lost.csv", "--out", "sensor.calibration.toml");
        outcome.ShouldRefuse(2, 5);
        Assert.Equal(3, outcome.ErrorLines.Count(line => line.StartsWith("lost.csv: ", StringComparison.Ordinal)));
        Assert.Equal(2, outcome.ErrorLines.Count(line => line.StartsWith("x1.csv: is given as ", StringComparison.Ordinal)));
        Assert.False(File.Exists(folder.At("sensor.calibration.toml")));
    }

    [Fact]
    public async Task Calibrating_without_saying_how_names_the_ways()
    {
        var outcome = await Running.Run(folder.Path, "calibrate");
        outcome.ShouldRefuse(2, 1);
        Assert.StartsWith("strokewatch calibrate: no command is given; the commands are tumble, compare", outcome.Error, StringComparison.Ordinal);
    }

    private static double[] Read(double x, double y, double z)
    {
        double[] a = [x, y, z];
        return [.. Enumerable.Range(0, 3).Select(i => Bias[i] + Enumerable.Range(0, 3).Sum(j => Gain[i, j] * a[j]))];
    }

    private static string Row(double t, double[] g) => string.Create(CultureInfo.InvariantCulture, $"{t:0.0000000},{g[0]:0.0000000},{g[1]:0.0000000},{g[2]:0.0000000}");

    private static string Feeder(string sensor) =>
        File.ReadAllText(Repository.Feeder("steady-50hz")) + $"\n[sensor]\nfull_scale_g = 40\n{sensor}\n";

    private async Task<JsonNode> Replay(string sensor)
    {
        folder.Write("cullet.feeder.toml", Feeder(sensor));
        return (await Running.Run(folder.Path, "replay", "misread.csv", "--feeder", "cullet.feeder.toml", "--json", "-")).Document();
    }

    /// <summary>Writes a simulated capture as the faulty sensor would have read it.</summary>
    private void Misread(string name)
    {
        using var source = CaptureFile.Open(Repository.Capture(name));
        using var writer = new StreamWriter(folder.At("misread.csv"));
        writer.WriteLine("t_s,x_g,y_g,z_g");
        var block = new SampleBlock(3, 4096);
        while (source.Read(block) == SourceState.Samples)
        {
            for (var n = 0; n < block.Count; n++)
            {
                writer.WriteLine(Row(
                    block.StartSeconds + n / source.Info.RateHz!.Value,
                    Read(block[0][n] / Gravity.Standard, block[1][n] / Gravity.Standard, block[2][n] / Gravity.Standard)));
            }
        }
    }

    /// <summary>Writes a position at rest, with a little seeded noise, and gives the option's part.</summary>
    private string Rest(int axis, bool up)
    {
        var random = new Random(axis);
        var name = $"{"xyz"[axis]}{(up ? 1 : 0)}.csv";
        double[] g = [0, 0, 0];
        g[axis] = up ? 1 : -1;
        var mean = Read(g[0], g[1], g[2]);
        using var writer = new StreamWriter(folder.At(name));
        writer.WriteLine("t_s,x_g,y_g,z_g");
        for (var n = 0; n < 2000; n++)
        {
            writer.WriteLine(Row(n / Rate, [.. mean.Select(value => value + 0.006 * (random.NextDouble() - 0.5))]));
        }

        return $"{"xyz"[axis]}{(up ? '+' : '-')}={name}";
    }
}
