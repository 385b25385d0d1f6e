using System.Globalization;
using StrokeWatch.EndToEnd.Tests.Commands;
using StrokeWatch.Measurement.Drive;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Sources;
using Xunit;
using Xunit.Abstractions;

namespace StrokeWatch.EndToEnd.Tests.Reference;

/// <summary>Open recordings that nobody here made, through the command: rates and tones as their README says, and no stroke where there is none.</summary>
public sealed class RealRecordingTests(ITestOutputHelper output) : IDisposable
{
    private const double Gravity = 9.80665;
    private readonly TempFolder folder = new();

    public static TheoryData<string, string[], double, double, string> Recordings() => new()
    {
        { "beam-shaker-100-120-150/data_set_1_downsampled_by_64.lvm", ["--columns", "t=1,z=4"], 800, 1e-6, "timestamps" },
        { "shaker-us-400hz/001.csv", ["--unit", "g"], 400.02, 0.005, "timestamps" },
        { "pcb-shock-50k/acc_pcb_a14.txt", [], 50_000, 1e-3, "timestamps" },
        { "lvm-multichannel/long_single_header_multi_ch.lvm", ["--columns", "x=3,z=4", "--rate-hz", "1024"], 1024, 0, "option" },
        { "lvm-multichannel/long_single_header_multi_ch.lvm", ["--columns", "x=3,z=4"], 1 / 0.000977, 1e-3, "header" },
        { "drop-tower-1M/accel_1.csv", ["--columns", "x=2,y=3,z=4", "--unit", "kilo_g"], 1e6, 1e-3, "timestamps" },
    };

    public void Dispose() => folder.Dispose();

    [SkippableTheory]
    [MemberData(nameof(Recordings))]
    public async Task Its_rate_is_told_and_no_stroke_is_claimed_for_any_kind_of_feeder(string file, string[] options, double rate, double within, string from)
    {
        var path = Repository.Shared(Path.Combine("real", file));
        foreach (var (supply, strokes) in new[] { (50, 1), (60, 1), (50, 2), (60, 2) })
        {
            var feeder = folder.Write("feeder.toml", string.Create(
                CultureInfo.InvariantCulture,
                $"name = \"Feeder\"\n[drive]\nsupply_hz = {supply}\nstrokes_per_cycle = {strokes}\n[stroke]\nlow = \"{1.5 / strokes / strokes:0.000} mm\"\nhigh = \"{1.7 / strokes / strokes:0.000} mm\"\n"));
            var outcome = await Running.Run(folder.Path, ["replay", path, "--feeder", feeder, "--json", "-", .. options]);
            Assert.Equal((3, ""), (outcome.Status, outcome.Error));
            var document = outcome.Document();
            Contract.Check(document);
            var reason = (string?)document["stroke"]!["reason"];
            output.WriteLine($"{supply * strokes} Hz: {(string)document["stroke"]!["verdict"]!}, {reason}");
            Assert.Equal(rate, (double)document["capture"]!["rate_hz"]!, within + 5e-5);
            Assert.Equal(from, (string)document["capture"]!["rate_from"]!);
            Assert.Null(document["stroke"]!["pp_mm"]);
            Assert.False(string.IsNullOrWhiteSpace(reason));
            Assert.False((bool)document["strike"]!["found"]!);
            Assert.DoesNotContain(document["alarms"]!.AsArray(), alarm => (string)alarm!["kind"]! is "strike" or "over-stroke" or "low-stroke" or "high-stroke");
        }
    }

    [SkippableTheory]
    [InlineData(150, 0.0843, 1.86)]
    [InlineData(120, 0.0509, 1.76)]
    [InlineData(100, 0.0434, 2.16)]
    public void The_beam_shakers_tones_are_found_where_its_README_says(double hertz, double peakG, double micrometres)
    {
        var path = Repository.Shared("real/beam-shaker-100-120-150/data_set_1_downsampled_by_64.lvm");
        Assert.True(CaptureOptions.TryParseColumns("t=1,z=4", out var columns, out _));
        using var source = CaptureFile.Open(path, new() { Columns = columns });
        var block = new SampleBlock(1, 20_000);
        Assert.Equal(SourceState.Samples, source.Read(block));
        var rate = source.Info.RateHz!.Value;
        var samples = block[0][..15_760];
        var fit = SineFit.Free(samples, hertz / rate);
        var found = fit.CyclesPerSample * rate;
        var stroke = 2e6 * fit.Amplitude / Math.Pow(2 * Math.PI * found, 2);
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{found:0.0000} Hz, {fit.Amplitude / Gravity:0.00000} g, {stroke:0.000} µm"));
        Assert.Equal(hertz, found, 0.01);
        Assert.InRange(fit.Amplitude / Gravity, 0.97 * peakG, 1.03 * peakG);
        Assert.InRange(stroke, 0.97 * micrometres, 1.03 * micrometres);
    }
}
