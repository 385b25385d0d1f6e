using System.Runtime.Versioning;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Commands;
using StrokeWatch.EndToEnd.Tests.Commands;
using StrokeWatch.Samples.Blocks;
using Xunit;
using Xunit.Abstractions;

namespace StrokeWatch.EndToEnd.Tests.Live;

/// <summary>One device with three sensors on one clock, at the end of one cable.</summary>
[Collection(RealTime.Name)]
[SupportedOSPlatform("linux")]
public sealed class SeveralOnOnePortTests : IDisposable
{
    private const double FrontScale = 1.03;
    private readonly ITestOutputHelper output;
    private readonly TempFolder folder = new();
    private readonly TraySensor sensor;

    public SeveralOnOnePortTests(ITestOutputHelper output)
    {
        Skip.IfNot(OperatingSystem.IsLinux(), "pseudo-terminals are made by calls of Linux");
        this.output = output;
        sensor = new(folder.At("board"));
        folder.Write("cullet.feeder.toml", DemoFeeder.Toml.Split("[sensor]")[0] + "[[sensors]]\nplace = \"front\"\n[[sensors]]\nplace = \"rear\"\n[[sensors]]\nplace = \"body\"\n");
        folder.Write("watch.toml", $"feeder = \"cullet.feeder.toml\"\n[sensor]\nport = \"{folder.At("board")}\"\nprotocol = \"frames\"\nplaces = [\"body\", \"front\", \"rear\"]\n[store]\npath = \"store.db\"\n");
    }

    private string Store => folder.At("store.db");

    public void Dispose()
    {
        sensor.Dispose();
        folder.Dispose();
    }

    [SkippableFact]
    public async Task All_sensors_are_recorded_into_one_capture_and_replayed_with_strokes_phases_and_the_tray_against_the_body()
    {
        sensor.PlugFrames(Board());
        foreach (var name in (string[])["board.wav", "board.csv"])
        {
            var recorded = await Running.Run(folder.Path, "record", "--config", "watch.toml", "--seconds", "2.5", "--out", name);
            Assert.Equal((0, ""), (recorded.Status, string.Concat(recorded.ErrorLines.Where(line => !line.Contains("samples come", StringComparison.Ordinal)))));
            var replayed = await Running.Run(folder.Path, "replay", name, "--feeder", "cullet.feeder.toml", "--json", "-");
            Assert.Equal((0, ""), (replayed.Status, replayed.Error));
            var document = replayed.Document();
            Contract.Check(document);
            Assert.Equal(TraySensor.StrokeMillimetres, (double)document["stroke"]!["pp_mm"]!, 0.005 * TraySensor.StrokeMillimetres);
            var sensors = document["sensors"]!.AsArray();
            Assert.Equal(["front", "rear", "body"], sensors.Select(one => (string)one!["place"]!));
            Assert.Equal(FrontScale * TraySensor.StrokeMillimetres, (double)sensors[0]!["pp_mm"]!, 0.005 * TraySensor.StrokeMillimetres);
            Assert.Equal(-8, (double)sensors[1]!["phase_deg"]!, 0.5);
            Assert.NotNull(document["relative"]!["tray_to_body_pp_mm"]);
        }
    }

    [SkippableFact]
    public async Task The_mean_is_watched_and_a_sensor_that_dies_is_its_own_alarm_while_the_others_go_on()
    {
        var board = new DyingSensor(Board(), SensorPlace.Rear);
        sensor.PlugFrames(board);
        using var daemon = Running.Start(folder.Path, "watch", "--config", "watch.toml");
        var before = await daemon.Until(() => Database.GoodWindows(Store, 4), "windows in the database");
        Assert.All(before, window => Assert.Equal(Verdict.InBand, window.Verdict));
        Assert.Equal(TraySensor.StrokeMillimetres, 1e3 * before[^1].Reading.StrokeMetres!.Value, 0.005 * TraySensor.StrokeMillimetres);
        board.Die();
        var alarm = await daemon.Until(() => Database.Alarm(Store, AlarmKind.SensorStuck, raised: true), "alarm of the sensor that died");
        output.WriteLine(alarm.Transition.Words);
        Assert.StartsWith("Sensor rear stuck: it gives the same value again and again", alarm.Transition.Words, StringComparison.Ordinal);

        // That it gives no stroke follows from it: recorded, but not shown beside it.
        alarm = await daemon.Until(() => Database.Alarm(Store, AlarmKind.Unmeasurable, raised: true), "alarm of what follows");
        Assert.StartsWith("Sensor rear gives no stroke though another does.", alarm.Transition.Words, StringComparison.Ordinal);
        Assert.Equal(AlarmState.SuppressedByDesign, Database.Journal(Store)[^1].To);
        var after = await daemon.Until(() => Database.GoodWindows(Store, 4, before[^1].Id + 4), "windows of the others");
        Assert.Equal(FrontScale * TraySensor.StrokeMillimetres, 1e3 * after[^1].Reading.StrokeMetres!.Value, 0.005 * TraySensor.StrokeMillimetres);
        Assert.Equal(2, Database.Alarms(Store).Count);
        Assert.DoesNotContain("unmeasurable", daemon.Error, StringComparison.Ordinal);
        daemon.Signal(Running.Terminate);
        var outcome = await daemon.End(TimeSpan.FromSeconds(15));
        Assert.Equal(1, outcome.Status);
        outcome.ShouldBePlain();

        // What was summed up of the run knows its sensors.
        var features = Database.Stretches(Store, "Cullet feeder").Single().Stretch.Features;
        Assert.InRange(features.FrontRear!.Value, 0.04, 0.08);
    }

    [SkippableFact]
    public async Task A_board_with_another_number_of_sensors_is_said_in_plain_words()
    {
        sensor.PlugFrames(TraySensor.Feeder(places: [new(SensorPlace.Front), new(SensorPlace.Rear)]));
        using var daemon = Running.Start(folder.Path, "watch", "--config", "watch.toml");
        await daemon.Until(() => daemon.Error.Contains("the device sends 2 sensors, the configuration names 3 sensors", StringComparison.Ordinal) ? "said" : null, "the contradiction");
        daemon.Signal(Running.Terminate);
        (await daemon.End(TimeSpan.FromSeconds(15))).ShouldBePlain();
    }

    private static Samples.Sources.ISampleSource Board() =>
        TraySensor.Feeder(places: [new(SensorPlace.Body), new(SensorPlace.Front, FrontScale, 4), new(SensorPlace.Rear, 2 - FrontScale, -4)]);
}
