using System.Diagnostics;
using System.Runtime.Versioning;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Stretches;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Commands;
using StrokeWatch.EndToEnd.Tests.Commands;
using StrokeWatch.Outputs.Store;
using Xunit;
using Xunit.Abstractions;

namespace StrokeWatch.EndToEnd.Tests.Live;

/// <summary>The daemon as it runs on a board: a child process, its sensor at the other end of a pseudo-terminal.</summary>
[Collection(RealTime.Name)]
[SupportedOSPlatform("linux")]
public sealed class WatchTests : IDisposable
{
    private readonly ITestOutputHelper output;
    private readonly TrayBench bench = new();

    public WatchTests(ITestOutputHelper output) => this.output = output;

    private string Store => bench.Folder.At("store.db");

    public void Dispose() => bench.Dispose();

    [SkippableFact]
    public async Task A_sensor_that_is_pulled_out_is_an_alarm_and_comes_back_under_the_same_path()
    {
        Configure("protocol = \"frames\"");
        bench.Sensor.PlugFrames(TraySensor.Feeder());
        using var daemon = Running.Start(bench.Folder.Path, "watch", "--config", "watch.toml");
        var before = await daemon.Until(() => Database.GoodWindows(Store, 4), "windows in the database");
        Check(before);
        Assert.Empty(Database.Alarms(Store));

        var again = TraySensor.Feeder();
        var pulled = Stopwatch.StartNew();
        bench.Sensor.Unplug();
        var lost = await daemon.Until(() => Database.Alarm(Store, AlarmKind.SensorLost, raised: true), "lost-sensor alarm in the database");
        var after = pulled.Elapsed.TotalSeconds;
        output.WriteLine($"sensor lost: alarm in the database {after:0.0} s after the plug was pulled: {lost.Transition.Words}");
        Assert.InRange(after, 1.5, 5);
        await daemon.Until(() => daemon.Error.Contains("Alarm sensor-lost raised", StringComparison.Ordinal) ? "said" : null, "alarm in the log", 5);

        bench.Sensor.PlugFrames(again, startNumber: 2);
        pulled.Restart();
        await daemon.Until(() => Database.Alarm(Store, AlarmKind.SensorLost, raised: false), "end of the alarm in the database");
        output.WriteLine($"sensor back: alarm cleared {pulled.Elapsed.TotalSeconds:0.0} s after the plug went in");
        var resumed = await daemon.Until(() => Database.GoodWindows(Store, 4, before[^1].Id), "windows after the return");
        Check(resumed);

        daemon.Signal(Running.Terminate);
        var outcome = await daemon.End(TimeSpan.FromSeconds(15));
        Assert.Equal(1, outcome.Status);
        outcome.ShouldBePlain();
        Assert.Contains("Cullet feeder  1.71", outcome.Out, StringComparison.Ordinal);
        Assert.Contains("in band", outcome.Out, StringComparison.Ordinal);
        foreach (var alarm in Database.Alarms(Store))
        {
            output.WriteLine($"{alarm.Transition}");
        }

        Assert.Equal(2, Database.Alarms(Store).Count);
        StoreEventKind?[] events = [.. Database.Events(Store).Select(stored => stored.Kind)];
        Assert.Equal(StoreEventKind.Start, events[0]);
        Assert.Equal(StoreEventKind.Stop, events[^1]);
        Assert.Contains(StoreEventKind.SensorLost, events);
        Assert.True(events.Count(kind => kind == StoreEventKind.SensorBack) >= 2);
        Assert.Null(Database.Damage(Store));

        // What ran until the end is one stretch, cut by no short gap and marked by its alarm; of a few seconds nothing is learned.
        var stretch = Assert.Single(Database.Stretches(Store, "Cullet feeder")).Stretch;
        Assert.Equal((StretchEnd.Over, true), (stretch.Ended, stretch.Alarm));
        Assert.Equal(TraySensor.StrokeMillimetres, 1e3 * stretch.Features.Stroke!.Value, 2);
        Assert.Contains("learning what healthy is: 0 stretches", outcome.Error, StringComparison.Ordinal);
        Assert.False(File.Exists(bench.Folder.At("cullet.feeder.baseline.json")));
    }

    [SkippableFact]
    public async Task What_is_said_of_an_alarm_is_in_the_journal_already_however_the_daemon_ends_and_stands_after_the_next_start()
    {
        Configure("protocol = \"frames\"");
        using (var killed = Running.Start(bench.Folder.Path, "watch", "--config", "watch.toml"))
        {
            await killed.Until(() => killed.Error.Contains("Alarm sensor-lost raised", StringComparison.Ordinal) ? "said" : null, "alarm in the log");
            killed.Signal(Running.Kill);
            await killed.End();
        }

        var step = Assert.Single(Database.Journal(Store));
        Assert.Equal((AlarmKind.SensorLost, AlarmAct.Activate, AlarmState.Normal, AlarmState.Unacknowledged, "measurement"), (step.Id.Kind, step.Act, step.From, step.To, step.By));
        Assert.Contains("Sensor lost", step.Words, StringComparison.Ordinal);

        bench.Sensor.PlugFrames(TraySensor.Feeder());
        using var daemon = Running.Start(bench.Folder.Path, "watch", "--config", "watch.toml");
        await daemon.Until(() => Database.GoodWindows(Store, 4), "windows in the database");
        bench.Sensor.Unplug();
        await daemon.Until(() => Database.Journal(Store).Count == 2 ? "written" : null, "second alarm in the journal");
        daemon.Signal(Running.Terminate);
        (await daemon.End(TimeSpan.FromSeconds(15))).ShouldBePlain();
        Assert.Equal(AlarmState.ReturnedUnacknowledged, Database.Journal(Store)[1].From);
        Assert.Null(Database.Damage(Store));
    }

    [SkippableFact]
    public async Task Text_lines_are_measured_and_a_killed_daemon_leaves_its_rows_and_starts_again()
    {
        Configure("protocol = \"lines\"\nunit = \"g\"\ntime = \"us\"\nrate_hz = 1600\nfull_scale_g = 32");
        bench.Sensor.PlugLines(TraySensor.Feeder(1600));
        IReadOnlyList<StoredWindow> kept;
        using (var killed = Running.Start(bench.Folder.Path, "watch", "--config", "watch.toml"))
        {
            kept = await killed.Until(() => Database.GoodWindows(Store, 4), "windows in the database");
            killed.Signal(Running.Kill);
            Assert.Equal(128 + Running.Kill, (await killed.End()).Status);
        }

        Check(kept);
        Assert.Null(Database.Damage(Store));
        using var daemon = Running.Start(bench.Folder.Path, "watch", "--config", "watch.toml");
        await daemon.Until(() => Database.Events(Store).Count(stored => stored.Kind == StoreEventKind.Start) == 2 ? "started" : null, "second start");
        await daemon.Until(() => daemon.Out.Contains("in band", StringComparison.Ordinal) ? "measured" : null, "a reading on standard output");
        daemon.Signal(Running.Terminate);
        var outcome = await daemon.End(TimeSpan.FromSeconds(15));
        Assert.Equal(0, outcome.Status);
        outcome.ShouldBePlain();

        // What waited for its commit is written on the orderly way out, and nothing written before the kill is gone.
        Check(Database.GoodWindows(Store, 1, kept[^1].Id)!);
        Assert.Empty(kept.Select(window => window.Id).Except(Database.Windows(Store).Select(window => window.Id)));
        Assert.Empty(Database.Alarms(Store));
        Assert.Equal(StoreEventKind.Stop, Database.Events(Store)[^1].Kind);
        Assert.DoesNotContain(Database.Events(Store), stored => stored.Kind == StoreEventKind.StoreReplaced);
        Assert.Null(Database.Damage(Store));
    }

    [SkippableFact]
    public async Task A_daemon_whose_port_is_not_there_says_so_and_alarms_instead_of_ending()
    {
        Configure("protocol = \"frames\"");
        using var daemon = Running.Start(bench.Folder.Path, "watch", "--config", "watch.toml");
        var lost = await daemon.Until(() => Database.Alarm(Store, AlarmKind.SensorLost, raised: true), "lost-sensor alarm in the database");
        Assert.Contains("Check the sensor's cable and supply", lost.Transition.Words, StringComparison.Ordinal);
        daemon.Signal(Running.Interrupt);
        var outcome = await daemon.End(TimeSpan.FromSeconds(15));
        Assert.Equal(1, outcome.Status);
        outcome.ShouldBePlain();
        Assert.Contains("tray-sensor", outcome.Error, StringComparison.Ordinal);
        Assert.Equal(StoreEventKind.Stop, Database.Events(Store)[^1].Kind);
    }

    private void Configure(string speech)
    {
        bench.Folder.Write("cullet.feeder.toml", DemoFeeder.Toml);
        bench.Folder.Write("watch.toml", $"feeder = \"cullet.feeder.toml\"\n[sensor]\nport = \"{bench.Folder.At("tray-sensor")}\"\n{speech}\n[store]\npath = \"store.db\"\n");
    }

    private void Check(IReadOnlyList<StoredWindow> windows)
    {
        double[] strokes = [.. windows.Select(window => 1e3 * window.Reading.StrokeMetres!.Value).Order()];
        var median = strokes[strokes.Length / 2];
        output.WriteLine(FormattableString.Invariant($"{windows.Count} windows, median {median:0.0000} mm of {TraySensor.StrokeMillimetres} mm"));
        Assert.InRange(median, 0.995 * TraySensor.StrokeMillimetres, 1.005 * TraySensor.StrokeMillimetres);
        Assert.All(windows, window => Assert.Equal(("Cullet feeder", Verdict.InBand), (window.Feeder, window.Verdict)));
    }
}
