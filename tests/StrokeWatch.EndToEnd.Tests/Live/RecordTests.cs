using System.Runtime.Versioning;
using StrokeWatch.Commands;
using StrokeWatch.EndToEnd.Tests.Commands;
using Xunit;

namespace StrokeWatch.EndToEnd.Tests.Live;

[Collection(RealTime.Name)]
[SupportedOSPlatform("linux")]
public sealed class RecordTests : IDisposable
{
    private readonly TrayBench bench = new();

    public RecordTests()
    {
        bench.Folder.Write("cullet.feeder.toml", DemoFeeder.Toml);
        bench.Folder.Write("watch.toml", $"feeder = \"cullet.feeder.toml\"\n[sensor]\nport = \"{bench.Folder.At("tray-sensor")}\"\nprotocol = \"frames\"\n[store]\npath = \"store.db\"\n");
    }

    public void Dispose() => bench.Dispose();

    [SkippableFact]
    public async Task A_live_sensor_is_recorded_as_CSV_and_WAV_and_replayed_to_the_true_stroke_and_check_finds_all_well()
    {
        bench.Sensor.PlugFrames(TraySensor.Feeder());
        foreach (var (name, seconds) in new[] { ("tray.csv", 2.5), ("tray.wav", 2.0) })
        {
            var recorded = await Running.Run(bench.Folder.Path, "record", "--config", "watch.toml", "--seconds", FormattableString.Invariant($"{seconds}"), "--out", name);
            Assert.Equal(0, recorded.Status);
            recorded.ShouldBePlain();
            Assert.StartsWith($"{name}: {seconds:0.###} s from ", recorded.Out, StringComparison.Ordinal);
            var replayed = await Running.Run(bench.Folder.Path, "replay", name, "--feeder", "cullet.feeder.toml", "--json", "-");
            Assert.Equal((0, ""), (replayed.Status, replayed.Error));
            var document = replayed.Document();
            Contract.Check(document);
            var samples = (long)document["capture"]!["samples"]! + (long)document["capture"]!["missing_samples"]!;
            Assert.InRange(samples, (long)(seconds * TraySensor.RateHz) - 1, (long)(seconds * TraySensor.RateHz) + 1);
            Assert.InRange((double)document["stroke"]!["pp_mm"]!, 0.995 * TraySensor.StrokeMillimetres, 1.005 * TraySensor.StrokeMillimetres);
            Assert.Equal(1500, (double)document["drive"]!["sensor_clock_error_ppm"]!, 50.0);
        }

        var check = await Running.Run(bench.Folder.Path, "check", "--config", "watch.toml");
        Assert.Equal((0, ""), (check.Status, check.Error));
        Assert.Contains("next     strokewatch watch --config watch.toml", check.Out, StringComparison.Ordinal);
    }

    [SkippableFact]
    public async Task A_recording_without_a_sensor_ends_with_what_to_look_at()
    {
        var outcome = await Running.Run(bench.Folder.Path, "record", "--config", "watch.toml", "--seconds", "0.5", "--out", "tray.csv");
        Assert.Equal((2, ""), (outcome.Status, outcome.Out));
        outcome.ShouldBePlain();
        Assert.EndsWith("nothing came from the sensor; check plug, cable, supply and the [sensor] table, then try again", outcome.Error.TrimEnd(), StringComparison.Ordinal);
        Assert.False(File.Exists(bench.Folder.At("tray.csv")));
    }

    [SkippableFact]
    public async Task Check_without_a_sensor_is_status_one_and_with_a_wrong_configuration_two()
    {
        var check = await Running.Run(bench.Folder.Path, "check", "--config", "watch.toml");
        Assert.Equal(1, check.Status);
        Assert.StartsWith("trouble  serial port ", Assert.Single(check.ErrorLines), StringComparison.Ordinal);
        Assert.DoesNotContain("next ", check.Out, StringComparison.Ordinal);

        bench.Folder.Write("cullet.feeder.toml", DemoFeeder.Toml.Replace("\"1.65 mm\"", "\"1.65 cm\"", StringComparison.Ordinal));
        bench.Folder.Write("watch.toml", "feeder = \"cullet.feeder.toml\"\n[sensor]\nport = 5\nprotocol = \"morse\"\nspeed = 9600\n");
        foreach (var command in (string[])["check", "watch"])
        {
            var outcome = await Running.Run(bench.Folder.Path, command, "--config", "watch.toml");
            outcome.ShouldRefuse(2, 5);
            Assert.Equal(
                ["cullet.feeder.toml:10:", "watch.toml:1:", "watch.toml:3:", "watch.toml:4:", "watch.toml:5:"],
                outcome.ErrorLines.Select(line => line.Split(' ')[0]).Order(StringComparer.Ordinal));
        }
    }
}
