using System.Runtime.Versioning;
using System.Text.RegularExpressions;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Commands;
using StrokeWatch.EndToEnd.Tests.Commands;
using StrokeWatch.Outputs.Store;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Samples.Sources;
using StrokeWatch.Sensors.Simulated;
using Xunit;

namespace StrokeWatch.EndToEnd.Tests.Live;

/// <summary>Two sensors on cables of their own, the supply's voltage at both, at one, or at the other.</summary>
[SupportedOSPlatform("linux")]
public sealed class SupplyPortsTests : IDisposable
{
    private const double Share = 0.94, Volts = Share * 230, Off = 0.98;
    private readonly TempFolder folder = new();
    private readonly TraySensor front;
    private readonly TraySensor rear;

    public SupplyPortsTests()
    {
        Skip.IfNot(OperatingSystem.IsLinux(), "pseudo-terminals are made by calls of Linux");
        (front, rear) = (new(folder.At("front")), new(folder.At("rear")));
        folder.Write("cullet.feeder.toml", DemoFeeder.Toml.Split("[sensor]")[0] + "[[sensors]]\nplace = \"front\"\n[[sensors]]\nplace = \"rear\"\n" + DemoFeeder.Supply);
        folder.Write(
            "watch.toml",
            $"feeder = \"cullet.feeder.toml\"\n[[sensor]]\nport = \"{folder.At("front")}\"\nprotocol = \"frames\"\nplace = \"front\"\n"
            + $"[[sensor]]\nport = \"{folder.At("rear")}\"\nprotocol = \"frames\"\nplace = \"rear\"\n[store]\npath = \"store.db\"\n");
    }

    private string Store => folder.At("store.db");

    public void Dispose()
    {
        front.Dispose();
        rear.Dispose();
        folder.Dispose();
    }

    [SkippableFact]
    public async Task Of_two_voltages_the_one_beside_the_sensor_that_leads_is_told_and_the_other_once_that_is_pulled()
    {
        front.PlugFrames(At(SensorPlace.Front, 1));
        rear.PlugFrames(At(SensorPlace.Rear, Off));
        using var daemon = Running.Start(folder.Path, "watch", "--config", "watch.toml");
        var both = await daemon.Until(() => Told(Database.GoodWindows(Store, 6)), "windows with a voltage");
        Assert.All(both.TakeLast(4), window => Assert.InRange(window.Reading.Supply!.Value.RmsVolts!.Value, Volts - 1, Volts + 1));
        Assert.Equal(Share * Share * TraySensor.StrokeMillimetres, 1e3 * both[^1].Reading.StrokeMetres!.Value, 0.02);

        front.Unplug();
        await daemon.Until(() => Database.Alarm(Store, AlarmKind.SensorLost, raised: true), "lost-sensor alarm in the database");
        var seen = Database.Windows(Store)[^1].Id;
        var alone = await daemon.Until(() => Told(Database.GoodWindows(Store, 4, seen)), "windows of the rear with a voltage");
        Assert.All(alone, window => Assert.InRange(window.Reading.Supply!.Value.RmsVolts!.Value, Off * Volts - 1, Off * Volts + 1));
        await End(daemon);
    }

    [SkippableFact]
    public async Task A_voltage_beside_the_sensor_that_does_not_lead_is_told_all_the_same()
    {
        front.PlugFrames(At(SensorPlace.Front, null));
        rear.PlugFrames(At(SensorPlace.Rear, 1));
        using var daemon = Running.Start(folder.Path, "watch", "--config", "watch.toml");
        var told = await daemon.Until(() => Told(Database.GoodWindows(Store, 8)), "windows with a voltage");
        Assert.All(told, window => Assert.InRange(window.Reading.Supply!.Value.RmsVolts!.Value, Volts - 1, Volts + 1));
        var line = new Regex(@"21[567]\.\d V, 9[345]\.\d % of full \(at full voltage 1\.[67]\d\d mm");
        await daemon.Until(() => line.IsMatch(daemon.Out) ? daemon : null, "a line with the voltage");
        await End(daemon);
    }

    [SkippableFact]
    public async Task With_the_only_sensor_that_brings_the_voltage_pulled_the_stroke_goes_on_and_no_old_voltage_is_told()
    {
        front.PlugFrames(At(SensorPlace.Front, 1));
        rear.PlugFrames(At(SensorPlace.Rear, null));
        using var daemon = Running.Start(folder.Path, "watch", "--config", "watch.toml");
        await daemon.Until(() => Told(Database.GoodWindows(Store, 4)), "windows with a voltage");
        front.Unplug();
        await daemon.Until(() => Database.Alarm(Store, AlarmKind.SensorLost, raised: true), "lost-sensor alarm in the database");
        var seen = Database.Windows(Store)[^1].Id;
        var alone = await daemon.Until(() => Database.GoodWindows(Store, 4, seen), "windows of the rear");
        Assert.All(alone, window => Assert.Null(window.Reading.Supply?.RmsVolts));
        Assert.Equal(Share * Share * TraySensor.StrokeMillimetres, 1e3 * alone[^1].Reading.StrokeMetres!.Value, 0.02);
        await End(daemon);
    }

    /// <summary>Gives the windows once the last few of them hold a voltage: a sensor says what it brings some tenths of a second after it begins.</summary>
    private static IReadOnlyList<StoredWindow>? Told(IReadOnlyList<StoredWindow>? windows) =>
        windows?.Where(window => window.Reading.Supply?.RmsVolts is not null).ToList() is { Count: >= 3 } told ? told : null;

    private static async Task<Outcome> End(Running daemon)
    {
        daemon.Signal(Running.Terminate);
        var outcome = await daemon.End(TimeSpan.FromSeconds(15));
        outcome.ShouldBePlain();
        return outcome;
    }

    /// <summary>Makes a sensor on a feeder whose supply has sagged; its transducer is out by a factor, or it has none.</summary>
    private static ISampleSource At(SensorPlace place, double? transducer) => new SimulatedFeederSource(new FeederScenario
    {
        Name = "A healthy cullet feeder on a supply that sags",
        Feeder = DemoScenario.Feeder,
        DurationSeconds = double.PositiveInfinity,
        Stroke = Length.FromMillimetres(TraySensor.StrokeMillimetres),
        Supply = new() { Voltage = [(0, 100 * Share)] },
        SupplyChannel = transducer is null ? null : new() { FullVolts = 230 * transducer.Value },
        Sensor = new() { RateHz = TraySensor.RateHz, NoiseG = 0.03, RateErrorPpm = place == SensorPlace.Front ? 6000 : -5000 },
        Sensors = [new(place, 1)],
    });
}
