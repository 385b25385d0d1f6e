using System.Runtime.Versioning;
using System.Text.Json;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.EndToEnd.Tests.Commands;
using StrokeWatch.Outputs.Store;
using Xunit;

namespace StrokeWatch.EndToEnd.Tests.Live;

/// <summary>The waveform around an alarm as the daemon leaves it, killed in its middle too.</summary>
[Collection(RealTime.Name)]
[SupportedOSPlatform("linux")]
public sealed class AlarmCaptureTests : IDisposable
{
    private readonly TrayBench bench = new();

    public void Dispose() => bench.Dispose();

    [SkippableFact]
    public async Task A_killed_daemon_s_half_capture_is_finished_at_the_next_start_and_replays_from_its_own_folder()
    {
        bench.Configure("""
            [captures]
            folder = "captures"
            before_s = 4
            after_s = 60
            """);
        bench.Sensor.PlugFrames(TraySensor.Feeder());
        using (var killed = Running.Start(bench.Folder.Path, "watch", "--config", "watch.toml"))
        {
            await killed.Until(() => Database.GoodWindows(bench.Folder.At("store.db"), 10), "windows in the database");
            bench.Sensor.Unplug();
            await killed.Until(() => Directory.Exists(bench.Folder.At("captures")) && Directory.GetFiles(bench.Folder.At("captures"), "*.part").Length == 1 ? "begun" : null, "a capture begun");
            await Task.Delay(1000);
            killed.Signal(Running.Kill);
            await killed.End();
        }

        using var daemon = Running.Start(bench.Folder.Path, "watch", "--config", "watch.toml");
        var file = await daemon.Until(() => Directory.GetFiles(bench.Folder.At("captures"), "*.wav").SingleOrDefault(), "the capture finished");
        Assert.EndsWith("-sensor-lost.wav", file, StringComparison.Ordinal);
        AlarmWaveform? kept = null;
        await daemon.Until(() => (kept = Captures().FirstOrDefault()) is null ? null : "noted", "the capture in the database");
        Assert.Equal((Path.GetFileName(file), new AlarmId(AlarmKind.SensorLost), false), (kept!.File, kept.Id, kept.Whole));
        Assert.InRange(kept.LengthSeconds, 3.5, 4.1);

        // Away from the daemon's configuration: what lies beside it is enough.
        var elsewhere = Directory.CreateDirectory(bench.Folder.At("elsewhere")).FullName;
        foreach (var part in Directory.GetFiles(bench.Folder.At("captures")))
        {
            File.Copy(part, Path.Combine(elsewhere, Path.GetFileName(part)));
        }

        var name = Path.GetFileName(file);
        var replayed = await Running.Start(elsewhere, "replay", name, "--json", "-").End();
        Assert.Equal(0, replayed.Status);
        var stroke = JsonDocument.Parse(replayed.Out).RootElement.GetProperty("stroke").GetProperty("pp_mm").GetDouble();
        Assert.Equal(TraySensor.StrokeMillimetres, stroke, 0.03);
        daemon.Signal(Running.Terminate);
        (await daemon.End(TimeSpan.FromSeconds(15))).ShouldBePlain();
    }

    private IReadOnlyList<AlarmWaveform> Captures()
    {
        using var reader = new StoreReader(bench.Folder.At("store.db"));
        return reader.Captures(DateTimeOffset.UnixEpoch, new(2100, 1, 1, 0, 0, 0, TimeSpan.Zero));
    }
}
