using System.Runtime.Versioning;
using StrokeWatch.Commands;
using StrokeWatch.EndToEnd.Tests.Commands;
using StrokeWatch.EndToEnd.Tests.Session;
using StrokeWatch.Outputs.Book;
using Xunit;
using Xunit.Abstractions;

namespace StrokeWatch.EndToEnd.Tests.Live;

[Collection(RealTime.Name)]
[SupportedOSPlatform("linux")]
public sealed class TuningLiveTests(ITestOutputHelper output) : IDisposable
{
    private const string Springs = """

        [springs]
        modulus_gpa = 205.0
        length_mm = 120.0
        width_mm = 75.0
        front = [ { thickness_mm = 4.0, count = 4 } ]
        rear  = [ { thickness_mm = 4.0, count = 5 } ]
        """;

    private readonly TempFolder folder = new();
    private TraySensor? sensor;

    public void Dispose()
    {
        sensor?.Dispose();
        folder.Dispose();
    }

    [SkippableFact]
    public async Task A_live_measurement_counts_down_shows_the_stroke_and_leaves_its_capture()
    {
        Skip.IfNot(OperatingSystem.IsLinux(), "pseudo-terminals are made by calls of Linux");
        folder.Write("cullet.feeder.toml", DemoFeeder.Toml + Springs);
        folder.Write("watch.toml", $"feeder = \"cullet.feeder.toml\"\n[sensor]\nport = \"{folder.At("tray-sensor")}\"\nprotocol = \"frames\"\n[store]\npath = \"store.db\"\n");
        sensor = new(folder.At("tray-sensor"));
        var tray = TraySensor.Feeder();
        using var keys = new Keyboard(folder.Path, "tune", "--feeder", "cullet.feeder.toml", "--config", "watch.toml", "--who", "Kim", "--seconds", "6");
        foreach (var title in new[] { "Cautions", "Tray empty", "Full voltage", "Warm", "Nothing touching", "Leaves dry and clean" })
        {
            await keys.Sees("== " + title);
            keys.Presses("1");
        }

        await keys.Sees("== Rear stack");
        await keys.PressesEnter();
        await keys.Sees("== Measure");
        sensor.PlugFrames(tray);
        keys.Presses("1");
        var reading = await keys.Sees("== Reading");
        output.WriteLine(reading.Replace("\u001b", "ESC", StringComparison.Ordinal).Replace("\r", "\n", StringComparison.Ordinal));
        Assert.Contains("  3 s  1.7", reading, StringComparison.Ordinal);
        Assert.Contains("Now switch the feeder off", reading, StringComparison.Ordinal);
        Assert.Contains("in band\u001b[K", reading, StringComparison.Ordinal);
        keys.Presses("q");
        Assert.Equal(1, await keys.Ends());

        using var book = MachineBook.OpenReader(folder.At("cullet.feeder.book.sqlite"));
        var trial = Assert.Single(book.Sessions.Trials());
        Assert.Equal(TraySensor.StrokeMillimetres, trial.StrokeMetres!.Value * 1e3, 0.01);
        Assert.Equal("in-band", trial.Verdict);
        var replayed = await Running.Run(folder.Path, "replay", trial.Capture!, "--feeder", "cullet.feeder.toml", "--json", "-");
        Assert.Equal(trial.StrokeMetres!.Value * 1e3, (double)replayed.Document()["stroke"]!["pp_mm"]!, 2e-3);
        Assert.InRange((double)replayed.Document()["capture"]!["duration_s"]!, 5.5, 7.0);
    }

    [SkippableFact]
    public async Task Without_a_sensor_the_session_says_what_to_look_at_and_goes_on()
    {
        Skip.IfNot(OperatingSystem.IsLinux(), "pseudo-terminals are made by calls of Linux");
        folder.Write("cullet.feeder.toml", DemoFeeder.Toml + Springs);
        folder.Write("watch.toml", $"feeder = \"cullet.feeder.toml\"\n[sensor]\nport = \"{folder.At("tray-sensor")}\"\nprotocol = \"frames\"\n[store]\npath = \"store.db\"\n");
        using var keys = new Keyboard(folder.Path, "tune", "--feeder", "cullet.feeder.toml", "--config", "watch.toml", "--who", "Kim");
        foreach (var title in new[] { "Cautions", "Tray empty", "Full voltage", "Warm", "Nothing touching", "Leaves dry and clean" })
        {
            await keys.Sees("== " + title);
            keys.Presses("1");
        }

        await keys.Sees("== Rear stack");
        await keys.PressesEnter();
        await keys.Sees("== Measure");
        keys.Presses("1");
        Assert.Contains("nothing came from the sensor", await keys.Sees("== Measure"), StringComparison.Ordinal);
        keys.Presses("q");
        Assert.Equal(1, await keys.Ends());
    }
}
