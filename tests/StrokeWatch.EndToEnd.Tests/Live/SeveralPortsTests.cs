using System.Diagnostics;
using System.Runtime.Versioning;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Commands;
using StrokeWatch.EndToEnd.Tests.Commands;
using StrokeWatch.Outputs.Store;
using StrokeWatch.Samples.Blocks;
using Xunit;
using Xunit.Abstractions;

namespace StrokeWatch.EndToEnd.Tests.Live;

/// <summary>Sensors on cables of their own, each with its own clock: front and rear send frames, the body prints lines.</summary>
[Collection(RealTime.Name)]
[SupportedOSPlatform("linux")]
public sealed class SeveralPortsTests : IDisposable
{
    private const double FrontScale = 1.02;
    private readonly ITestOutputHelper output;
    private readonly TempFolder folder = new();
    private readonly TraySensor front;
    private readonly TraySensor rear;
    private readonly TraySensor body;

    public SeveralPortsTests(ITestOutputHelper output)
    {
        Skip.IfNot(OperatingSystem.IsLinux(), "pseudo-terminals are made by calls of Linux");
        this.output = output;
        (front, rear, body) = (new(folder.At("front")), new(folder.At("rear")), new(folder.At("body")));
        folder.Write("cullet.feeder.toml", DemoFeeder.Toml.Split("[sensor]")[0] + "[[sensors]]\nplace = \"front\"\n[[sensors]]\nplace = \"rear\"\n[[sensors]]\nplace = \"body\"\n");
        folder.Write(
            "watch.toml",
            $"feeder = \"cullet.feeder.toml\"\n[[sensor]]\nport = \"{folder.At("front")}\"\nprotocol = \"frames\"\nplace = \"front\"\n"
            + $"[[sensor]]\nport = \"{folder.At("rear")}\"\nprotocol = \"frames\"\nplace = \"rear\"\n"
            + $"[[sensor]]\nport = \"{folder.At("body")}\"\nprotocol = \"lines\"\nunit = \"g\"\ntime = \"us\"\nrate_hz = 1600\nfull_scale_g = 32\nplace = \"body\"\n"
            + "[store]\npath = \"store.db\"\n");
    }

    private string Store => folder.At("store.db");

    public void Dispose()
    {
        front.Dispose();
        rear.Dispose();
        body.Dispose();
        folder.Dispose();
    }

    [SkippableFact]
    public async Task The_mean_of_both_is_watched_and_one_that_is_pulled_is_its_own_alarm_until_it_is_back()
    {
        front.PlugFrames(Place(SensorPlace.Front, 6000));
        rear.PlugFrames(Place(SensorPlace.Rear, -5000));
        body.PlugLines(new OnlySensor(TraySensor.Feeder(1600, 0, new(SensorPlace.Front), new(SensorPlace.Body)), SensorPlace.Body));
        using var daemon = Running.Start(folder.Path, "watch", "--config", "watch.toml");
        var before = await daemon.Until(() => Database.GoodWindows(Store, 6), "windows in the database");
        Assert.Equal(TraySensor.StrokeMillimetres, Stroke(before), 0.005 * TraySensor.StrokeMillimetres);
        Assert.All(before, window => Assert.Equal(Verdict.InBand, window.Verdict));
        Assert.Empty(Database.Alarms(Store));

        // The front sets the pace: its plug is the hardest to lose.
        var again = Place(SensorPlace.Front, 6000);
        var pulled = Stopwatch.StartNew();
        front.Unplug();
        var lost = await daemon.Until(() => Database.Alarm(Store, AlarmKind.SensorLost, raised: true), "lost-sensor alarm in the database");
        output.WriteLine($"alarm in the database {pulled.Elapsed.TotalSeconds:0.0} s after the plug was pulled: {lost.Transition.Words}");
        Assert.Equal("Sensor front lost: nothing comes from it. The others are measured on. Check its cable and supply.", lost.Transition.Words);
        Assert.InRange(pulled.Elapsed.TotalSeconds, 1.5, 5);
        var seen = Database.Windows(Store)[^1].Id;
        var without = await daemon.Until(() => Database.GoodWindows(Store, 4, seen), "windows of the rear");
        Assert.Equal((2 - FrontScale) * TraySensor.StrokeMillimetres, Stroke(without), 0.005 * TraySensor.StrokeMillimetres);

        front.PlugFrames(again, startNumber: 2);
        await daemon.Until(() => Database.Alarm(Store, AlarmKind.SensorLost, raised: false), "end of the alarm in the database");
        seen = Database.Windows(Store)[^1].Id;
        var after = await daemon.Until(() => Database.GoodWindows(Store, 6, seen + 2), "windows after the return");
        Assert.Equal(TraySensor.StrokeMillimetres, Stroke(after), 0.005 * TraySensor.StrokeMillimetres);

        daemon.Signal(Running.Terminate);
        var outcome = await daemon.End(TimeSpan.FromSeconds(15));
        Assert.Equal(1, outcome.Status);
        outcome.ShouldBePlain();
        Assert.Equal(["Sensor front lost: nothing comes from it. The others are measured on. Check its cable and supply.", "Sensor front is back."], Database.Alarms(Store).Select(alarm => alarm.Transition.Words));
        Assert.Contains("Sensor body: ", outcome.Error, StringComparison.Ordinal);
        Assert.Null(Database.Damage(Store));

        // The stretch knows front and rear, and that nothing is known of the phase between their clocks.
        var features = Database.Stretches(Store, "Cullet feeder")[^1].Stretch.Features;
        Assert.InRange(features.FrontRear!.Value, 0.03, 0.05);
        Assert.Null(features.FrontRearPhaseDegrees);
        Assert.Null(features.TrayToBody);
    }

    [SkippableFact]
    public async Task One_capture_cannot_hold_several_clocks_but_each_sensor_is_recorded_by_itself_and_checked()
    {
        front.PlugFrames(Place(SensorPlace.Front, 6000));
        rear.PlugFrames(Place(SensorPlace.Rear, -5000));
        var refused = await Running.Run(folder.Path, "record", "--config", "watch.toml", "--seconds", "2", "--out", "all.csv");
        refused.ShouldRefuse(2, 1);
        Assert.Contains("with --place front or rear or body", refused.Error, StringComparison.Ordinal);
        (await Running.Run(folder.Path, "record", "--config", "watch.toml", "--seconds", "2", "--place", "left", "--out", "all.csv")).ShouldRefuse(2, 1);
        foreach (var name in (string[])["rear.csv", "rear.wav"])
        {
            var recorded = await Running.Run(folder.Path, "record", "--config", "watch.toml", "--seconds", "2", "--place", "rear", "--out", name);
            Assert.True(recorded.Status == 0, recorded.Error);
            folder.Write("one.feeder.toml", DemoFeeder.Toml);
            var replayed = await Running.Run(folder.Path, "replay", name, "--feeder", "one.feeder.toml", "--json", "-");
            Assert.Equal("", replayed.Error);
            Assert.Equal((2 - FrontScale) * TraySensor.StrokeMillimetres, (double)replayed.Document()["stroke"]!["pp_mm"]!, 0.005 * TraySensor.StrokeMillimetres);

            var compared = await Running.Run(
                folder.Path, "calibrate", "compare", "--capture", name, "--feeder", "cullet.feeder.toml", "--place", "rear", "--reference-stroke", "1.70 mm", "--reference-uncertainty", "0.004 mm", "--out", "rear.calibration.toml");
            Assert.Equal((0, ""), (compared.Status, compared.Error));
        }

        var check = await Running.Run(folder.Path, "check", "--config", "watch.toml");
        Assert.Equal(1, check.Status);
        Assert.Contains("(front): open, and bytes come", check.Out, StringComparison.Ordinal);
        Assert.Contains("body", Assert.Single(check.ErrorLines), StringComparison.Ordinal);
    }

    private static double Stroke(IReadOnlyList<StoredWindow> windows) => 1e3 * windows[^1].Reading.StrokeMetres!.Value;

    private static Samples.Sources.ISampleSource Place(SensorPlace place, double clockPpm) =>
        TraySensor.Feeder(clockPpm: clockPpm, places: new Sensors.Simulated.SimulatedPlace(place, place == SensorPlace.Front ? FrontScale : 2 - FrontScale));
}
