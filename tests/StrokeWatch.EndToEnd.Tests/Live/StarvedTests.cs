using System.Diagnostics;
using System.Globalization;
using System.Runtime.Versioning;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Commands;
using StrokeWatch.EndToEnd.Tests.Commands;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Samples.Sources;
using StrokeWatch.Sensors.Simulated;
using Xunit;
using Xunit.Abstractions;

namespace StrokeWatch.EndToEnd.Tests.Live;

/// <summary>The daemon where others take the processor, and where it may have little memory: late perhaps, with gaps that are told, but never wrong, and the alarm comes.</summary>
[Collection(RealTime.Name)]
[SupportedOSPlatform("linux")]
public sealed class StarvedTests(ITestOutputHelper output) : IDisposable
{
    private const int OthersAProcessor = 6;
    private const double CalmMillimetres = 1.71;
    private const long LimitBytes = 64L << 20;

    private readonly TrayBench bench = new();

    private string Store => bench.Folder.At("store.db");

    public void Dispose() => bench.Dispose();

    [SkippableFact]
    public async Task While_others_take_the_processor_no_stroke_is_wrong_and_an_over_stroke_is_alarmed()
    {
        Configure();
        bench.Sensor.PlugFrames(Rising());
        using var daemon = Running.Start(bench.Folder.Path, "watch", "--config", "watch.toml");
        await daemon.Until(() => Database.GoodWindows(Store, 4), "windows in the database");
        var others = Enumerable.Range(0, OthersAProcessor * Environment.ProcessorCount).Select(_ => Process.Start(new ProcessStartInfo("/bin/sh", ["-c", "while :; do :; done"]))!).ToList();
        try
        {
            var alarm = await daemon.Until(() => Database.Alarm(Store, AlarmKind.OverStroke, raised: true), "over-stroke alarm", 60);
            output.WriteLine($"alarm: {alarm.Transition.Words}");
            var seen = Database.Windows(Store).Count;
            await daemon.Until(() => Database.Windows(Store).Count >= seen + 8 ? "more" : null, "windows after it", 60);
        }
        finally
        {
            foreach (var other in others)
            {
                other.Kill();
                other.Dispose();
            }
        }

        daemon.Signal(Running.Terminate);
        var outcome = await daemon.End(TimeSpan.FromSeconds(30));
        outcome.ShouldBePlain();
        var windows = Database.Windows(Store);
        var gaps = windows.Count(window => window.Reading.Quality == WindowQuality.Gap);
        output.WriteLine($"{windows.Count} windows, {gaps} gaps; {outcome.ErrorLines[^1]}");

        // Steady windows lie on one of the two strokes, or between them while it rises; nothing beyond, whatever was lost on the way.
        var over = 1.12 * 1.12 * CalmMillimetres;
        var good = windows.Where(window => window.Reading is { Quality: WindowQuality.Good, StrokeMetres: not null }).Select(window => 1e3 * window.Reading.StrokeMetres!.Value).ToList();
        Assert.All(good, stroke => Assert.InRange(stroke, 0.99 * CalmMillimetres, 1.01 * over));
        Assert.True(good.Count(stroke => stroke < 1.005 * CalmMillimetres) >= 4 && good.Count(stroke => stroke > 0.98 * over) >= 4, string.Join(' ', good.Select(stroke => stroke.ToString("0.000", CultureInfo.InvariantCulture))));
        Assert.Null(Database.Damage(Store));
    }

    [SkippableFact]
    public async Task Sixty_four_mebibytes_are_enough_for_the_whole_daemon()
    {
        var group = Path.Combine("/sys/fs/cgroup/memory", $"strokewatch-test-{Environment.ProcessId}");
        Skip.IfNot(Directory.Exists("/sys/fs/cgroup/memory"), "this machine has no memory groups of the first version that a test may make");
        try
        {
            Directory.CreateDirectory(group);
        }
        catch (Exception refused) when (refused is IOException or UnauthorizedAccessException)
        {
            Skip.If(true, "this user may make no memory group");
        }

        try
        {
            File.WriteAllText(Path.Combine(group, "memory.limit_in_bytes"), LimitBytes.ToString(CultureInfo.InvariantCulture));
            Configure();
            bench.Sensor.PlugFrames(TraySensor.Feeder());
            using (var daemon = Running.StartIn(Path.Combine(group, "cgroup.procs"), bench.Folder.Path, "watch", "--config", "watch.toml"))
            {
                await daemon.Until(() => Database.GoodWindows(Store, 20), "windows in the database", 60);
                daemon.Signal(Running.Terminate);
                var outcome = await daemon.End(TimeSpan.FromSeconds(15));
                Assert.Equal(0, outcome.Status);
                outcome.ShouldBePlain();
            }

            var most = long.Parse(File.ReadAllText(Path.Combine(group, "memory.max_usage_in_bytes")), CultureInfo.InvariantCulture);
            output.WriteLine(FormattableString.Invariant($"most memory charged to it (pages of files that others had read already are not): {most / 1048576.0:0.0} MiB"));
            Assert.InRange(most, 20L << 20, LimitBytes);
            Assert.All(Database.GoodWindows(Store, 4)!, window => Assert.Equal(TraySensor.StrokeMillimetres, 1e3 * window.Reading.StrokeMetres!.Value, 0.01));
        }
        finally
        {
            Directory.Delete(group);
        }
    }

    [SkippableFact]
    public async Task Hours_of_running_at_speed_leave_memory_threads_and_files_as_they_were()
    {
        Skip.IfNot(OperatingSystem.IsLinux(), "open files are counted as Linux has them");
        var said = await Benchmarks.Run(output, "long-run", "0.05");
        Assert.Contains("heap grown", said, StringComparison.Ordinal);
        Assert.DoesNotContain("MISSED", said, StringComparison.Ordinal);
    }

    private static ISampleSource Rising() => new SimulatedFeederSource(new FeederScenario
    {
        Name = "A cullet feeder whose voltage rises",
        Feeder = DemoScenario.Feeder,
        DurationSeconds = double.PositiveInfinity,
        Stroke = Length.FromMillimetres(CalmMillimetres),
        Supply = new() { Voltage = [(0, 100), (8, 100), (10, 112)] },
        Sensor = new() { RateHz = TraySensor.RateHz, NoiseG = 0.03 },
    });

    private void Configure()
    {
        bench.Folder.Write("cullet.feeder.toml", DemoFeeder.Toml);
        bench.Folder.Write("watch.toml", $"feeder = \"cullet.feeder.toml\"\n[sensor]\nport = \"{bench.Folder.At("tray-sensor")}\"\nprotocol = \"frames\"\n[store]\npath = \"store.db\"\n");
    }
}
