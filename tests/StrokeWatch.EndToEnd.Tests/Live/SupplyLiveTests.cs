using System.Runtime.Versioning;
using System.Text.Json.Nodes;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Commands;
using StrokeWatch.EndToEnd.Tests.Commands;
using StrokeWatch.EndToEnd.Tests.Page;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Samples.Sources;
using StrokeWatch.Sensors.Simulated;
using Xunit;

namespace StrokeWatch.EndToEnd.Tests.Live;

/// <summary>The supply's voltage, live: by frames and by text lines, to the store, the page, the metrics, the live line and what is found.</summary>
[Collection(RealTime.Name)]
[SupportedOSPlatform("linux")]
public sealed class SupplyLiveTests : IDisposable
{
    internal const double Volts = 0.94 * 230;
    private const double Stroke = 0.94 * 0.94 * TraySensor.StrokeMillimetres;

    private readonly TrayBench bench = new();

    private string Store => bench.Folder.At("store.db");

    public void Dispose() => bench.Dispose();

    [SkippableFact]
    public async Task A_supply_that_sags_is_measured_brought_to_full_voltage_and_named_as_what_puts_the_stroke_out()
    {
        Configure("protocol = \"frames\"");
        bench.Sensor.PlugFrames(Sagging(TraySensor.RateHz));
        using var daemon = Running.Start(bench.Folder.Path, "watch", "--config", "watch.toml");
        var address = await PageRun.AddressOf(daemon);
        var windows = await daemon.Until(() => Database.GoodWindows(Store, 8) is { } good && good.Count(window => window.Reading.Supply?.PhaseDegrees is not null) >= 4 ? good : null, "windows with a voltage");
        using var client = new HttpClient { BaseAddress = new(address) };
        var status = JsonNode.Parse(await client.GetStringAsync("api/v1/status"))!;
        var metrics = new OpenMetrics(await client.GetStringAsync("metrics"));
        var found = JsonNode.Parse(await client.GetStringAsync("api/v1/findings"))!["now"]!["findings"]!.AsArray();
        daemon.Signal(Running.Terminate);
        var outcome = await daemon.End(TimeSpan.FromSeconds(15));

        Assert.All(windows, window => Assert.InRange(window.Reading.Supply!.Value.RmsVolts!.Value, Volts - 1, Volts + 1));
        Assert.All(windows, window => Assert.Equal(Verdict.Low, window.Verdict));
        double[] phases = [.. windows.Select(window => window.Reading.Supply?.PhaseDegrees).OfType<double>()];
        Assert.All(phases, phase => Assert.InRange(Math.Abs(Math.IEEERemainder(phase - phases[0], 360)), 0, 1));

        var supply = status["supply"]!;
        Assert.Equal(0.94, (double)supply["share_of_full"]!, 0.003);
        Assert.Equal(TraySensor.StrokeMillimetres, (double)supply["stroke_at_full_mm"]!, 0.02);
        Assert.Equal((double)supply["stroke_at_full_mm"]! / 25.4, (double)supply["stroke_at_full_in"]!, 1e-6);
        Assert.Equal(Stroke, (double)status["stroke"]!["pp_mm"]!, 0.02);
        Assert.Equal((double)supply["mains_v"]!, metrics.Value("strokewatch_supply_mains_volts"), 1);
        Assert.Equal(TraySensor.StrokeMillimetres * 1e-3, metrics.Value("strokewatch_stroke_at_full_voltage_meters"), 2e-5);

        var low = Assert.Single(found, one => (string)one!["id"]! == "low-stroke")!;
        Assert.Contains(low["because"]!.AsArray(), line => ((string)line!).Contains("the voltage puts it out, not the machine", StringComparison.Ordinal));
        Assert.Matches(@"216\.\d V, 9[34]\.\d % of full \(at full voltage 1\.7\d\d mm \(0\.06\d\d in\)\)", outcome.Out);
        outcome.ShouldBePlain();
    }

    [SkippableFact]
    public async Task Text_lines_bring_the_voltage_as_their_last_column()
    {
        Configure("protocol = \"lines\"\nunit = \"g\"\ntime = \"us\"\nrate_hz = 1600\nfull_scale_g = 32\nsupply = true");
        bench.Sensor.PlugLines(Sagging(1600));
        using var daemon = Running.Start(bench.Folder.Path, "watch", "--config", "watch.toml");
        var windows = await daemon.Until(() => Database.GoodWindows(Store, 4), "windows in the database");
        daemon.Signal(Running.Terminate);
        (await daemon.End(TimeSpan.FromSeconds(15))).ShouldBePlain();
        Assert.All(windows, window => Assert.InRange(window.Reading.Supply!.Value.RmsVolts!.Value, Volts - 1, Volts + 1));
        Assert.DoesNotContain(Database.Alarms(Store), alarm => alarm.Transition.Kind is AlarmKind.SensorLost or AlarmKind.Unmeasurable);
    }

    [SkippableFact]
    public async Task What_is_recorded_live_holds_the_voltage_and_replays_to_the_same()
    {
        Configure("protocol = \"frames\"");
        bench.Sensor.PlugFrames(Sagging(TraySensor.RateHz));
        var recorded = await Running.Run(bench.Folder.Path, "record", "--config", "watch.toml", "--seconds", "4", "--out", "live.wav");
        Assert.Equal(0, recorded.Status);
        var document = (await Running.Run(bench.Folder.Path, "replay", "live.wav", "--feeder", "cullet.feeder.toml", "--json", "-")).Document();
        Assert.Equal(Volts, (double)document["supply"]!["voltage_v"]!, 1);
        Assert.Equal(TraySensor.StrokeMillimetres, (double)document["stroke"]!["full_voltage_pp_mm"]!, 0.02);
    }

    internal static ISampleSource Sagging(double rate) => new SimulatedFeederSource(new FeederScenario
    {
        Name = "A healthy cullet feeder on a supply that sags",
        Feeder = DemoScenario.Feeder,
        DurationSeconds = double.PositiveInfinity,
        Stroke = Length.FromMillimetres(TraySensor.StrokeMillimetres),
        Supply = new() { Voltage = [(0, 94)] },
        SupplyChannel = new(),
        Sensor = new() { RateHz = rate, NoiseG = 0.03, RateErrorPpm = 1500 },
    });

    private void Configure(string speech) => bench.Configure("[page]\nlisten = \"127.0.0.1:0\"", DemoFeeder.Toml + DemoFeeder.Supply, speech);
}
