using System.Globalization;
using System.Runtime.Versioning;
using System.Text.Json.Nodes;
using StrokeWatch.Commands;
using StrokeWatch.EndToEnd.Tests.Commands;
using StrokeWatch.Outputs.Book;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Sensors.Simulated;
using Xunit;
using Xunit.Abstractions;

namespace StrokeWatch.EndToEnd.Tests.Live;

/// <summary>The daemon counts what a feeder runs into its machine book, and a kill does not take it away.</summary>
[Collection(RealTime.Name)]
[SupportedOSPlatform("linux")]
public sealed class BookTests : IDisposable
{
    private const double RunSeconds = 13;
    private readonly ITestOutputHelper output;
    private readonly TrayBench bench = new();

    public BookTests(ITestOutputHelper output) => this.output = output;

    public void Dispose() => bench.Dispose();

    [SkippableFact]
    public async Task What_ran_until_a_stop_survives_a_kill_and_is_shown()
    {
        bench.Folder.Write("cullet.feeder.toml", DemoFeeder.Toml);
        bench.Folder.Write("watch.toml", $"feeder = \"cullet.feeder.toml\"\n[sensor]\nport = \"{bench.Folder.At("tray-sensor")}\"\nprotocol = \"frames\"\n[store]\npath = \"store.db\"\n[book]\nfile = \"cullet.book.sqlite\"\n");
        Assert.Equal(0, (await Running.Run(bench.Folder.Path, "book", "remind", "cleaning", "--every-hours", "0.0001", "--feeder", "cullet.feeder.toml", "--book", "cullet.book.sqlite")).Status);
        bench.Sensor.PlugFrames(new SimulatedFeederSource(new FeederScenario
        {
            Feeder = DemoScenario.Feeder,
            DurationSeconds = double.PositiveInfinity,
            Stroke = Length.FromMillimetres(TraySensor.StrokeMillimetres),
            Supply = new() { On = [(4, 4 + RunSeconds)] },
            WarmStart = false,
            Sensor = new() { RateHz = TraySensor.RateHz, NoiseG = 0.03 },
        }));
        using var daemon = Running.Start(bench.Folder.Path, "watch", "--config", "watch.toml");
        var counters = await daemon.Until(() => Counters() is { Seconds: > RunSeconds - 2 } found ? found : null, "running in the machine book", 60);
        daemon.Signal(Running.Kill);
        await daemon.End(TimeSpan.FromSeconds(15));

        // A window counts whole, also that in which the feeder was switched on or off: half a second each.
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{counters.Seconds:0.00} s, {counters.Cycles:0} cycles, {counters.Starts} starts; the feeder was on for {RunSeconds} s"));
        Assert.InRange(counters.Seconds, RunSeconds - 1, RunSeconds + 1.5);
        Assert.Equal(counters.Seconds * DemoScenario.Feeder.Drive.NominalHz, counters.Cycles, 0.2 * counters.Cycles / RunSeconds);
        Assert.Equal(1, counters.Starts);

        var shown = await Running.Run(bench.Folder.Path, "book", "show", "--feeder", "cullet.feeder.toml", "--book", "cullet.book.sqlite", "--json", "-");
        Assert.Equal(counters.Hours, (double)JsonNode.Parse(shown.Out)!["running"]!["running_h"]!, 3);
        Assert.Equal("due", (string)JsonNode.Parse(shown.Out)!["reminders"]![0]!["state"]!);
    }

    private BookCounters? Counters()
    {
        try
        {
            using var book = MachineBook.OpenReader(bench.Folder.At("cullet.book.sqlite"));
            return book.Running.Read();
        }
        catch (BookException)
        {
            return null;
        }
    }
}
