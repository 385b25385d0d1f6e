using System.Runtime.Versioning;
using StrokeWatch.Commands;
using StrokeWatch.EndToEnd.Tests.Commands;
using StrokeWatch.EndToEnd.Tests.Influx;
using StrokeWatch.EndToEnd.Tests.Mqtt;
using Xunit;

namespace StrokeWatch.EndToEnd.Tests.Live;

/// <summary>The supply's voltage on its way from the sensor's port to a real time-series server and a real broker.</summary>
[SupportedOSPlatform("linux")]
public sealed class SupplyOutputsTests : IDisposable
{
    private readonly TrayBench bench = new();
    private readonly VictoriaMetrics server = new();
    private readonly Mosquitto broker = new();

    public void Dispose()
    {
        broker.Dispose();
        server.Dispose();
        bench.Dispose();
    }

    [SkippableFact]
    public async Task A_supply_that_sags_reaches_the_server_and_the_broker_with_its_phase_and_the_stroke_at_full_voltage()
    {
        VictoriaMetrics.Need();
        Mosquitto.Need();
        await server.Start();
        await broker.WithUser().Start();
        using var listener = await Listener.At(broker);
        File.SetUnixFileMode(bench.Folder.Write("password", Mosquitto.Password), UnixFileMode.UserRead | UnixFileMode.UserWrite);
        Configure($"user = \"{Mosquitto.User}\"\npassword_file = \"password\"");
        bench.Sensor.PlugFrames(SupplyLiveTests.Sagging(TraySensor.RateHz));
        using var daemon = Running.Start(bench.Folder.Path, "watch", "--config", "watch.toml");
        var told = await listener.Until("strokewatch/cullet-feeder/stroke", message => message.GetProperty("full_voltage_pp_mm").ValueKind == System.Text.Json.JsonValueKind.Number);
        Assert.Equal(SupplyLiveTests.Volts, told.GetProperty("supply_rms_v").GetDouble(), 1);
        Assert.Equal(TraySensor.StrokeMillimetres, told.GetProperty("full_voltage_pp_mm").GetDouble(), 0.03);
        Assert.InRange(told.GetProperty("supply_phase_deg").GetDouble(), -180, 180);

        await daemon.Until(() => Database.GoodWindows(bench.Folder.At("store.db"), 6), "windows in the database");
        daemon.Signal(Running.Terminate);
        await daemon.End(TimeSpan.FromSeconds(15));

        // What the store holds of voltages, the server holds: as many, at the same instants, and of the same size.
        var stored = Database.Windows(bench.Folder.At("store.db"));
        var sent = (await server.Samples("strokewatch_window_id")).Single().Value.Count;
        Assert.InRange(sent, 1, stored.Count);
        foreach (var (metric, kept) in ((string, Func<int, double?>)[])
        [
            ("supply_rms_v", i => stored[i].Reading.Supply?.RmsVolts), ("supply_phase_deg", i => stored[i].Reading.Supply?.PhaseDegrees), ("supply_mains_v", i => stored[i].Reading.Supply?.MainsVolts),
        ])
        {
            var expected = Enumerable.Range(0, sent).Where(i => kept(i) is not null).Select(i => (stored[i].Utc.ToUnixTimeMilliseconds(), kept(i)!.Value)).ToList();
            Assert.NotEmpty(expected);
            Assert.Equal(expected, (await server.Samples("strokewatch_window_" + metric)).Single().Value, (a, b) => a.Item1 == b.Item1 && Math.Abs(a.Value - b.Value) < 1e-9);
        }

        var full = (await server.Samples("strokewatch_window_full_voltage_pp_mm")).Single().Value;
        Assert.All(full, sample => Assert.Equal(TraySensor.StrokeMillimetres, sample.Value, 0.03));
    }

    [SkippableFact]
    public async Task By_sparkplug_too()
    {
        Mosquitto.Need();
        await broker.Start();
        using var host = await RawListener.At(broker.Port);
        await server.Start();
        Configure("profile = \"sparkplug\"\ngroup = \"glass\"");
        bench.Sensor.PlugFrames(SupplyLiveTests.Sagging(TraySensor.RateHz));
        using var daemon = Running.Start(bench.Folder.Path, "watch", "--config", "watch.toml");
        await host.Until(heard => heard.Any(message => message.Kind == "DDATA" && message.Message.Metrics.Exists(metric => metric is { Name: "Stroke/full_voltage_pp", IsNull: false })));
        daemon.Signal(Running.Terminate);
        await daemon.End(TimeSpan.FromSeconds(15));
        var birth = host.Heard.First(message => message.Kind == "DBIRTH").Message;

        // The first window is whole; the last one is cut short when the daemon ends, and the shorter it is the more its voltage scatters.
        var data = host.Heard.First(message => message.Kind == "DDATA" && message.Message.Metrics.Exists(metric => metric is { Name: "Stroke/full_voltage_pp", IsNull: false })).Message;
        Assert.Equal(SupplyLiveTests.Volts, (double)data["Supply/rms"].Value!, 1);
        Assert.Equal(TraySensor.StrokeMillimetres, (double)data["Stroke/full_voltage_pp"].Value!, 0.03);
        Assert.Subset(birth.Metrics.Select(metric => metric.Name).ToHashSet(), data.Metrics.Select(metric => metric.Name).ToHashSet());
    }

    private void Configure(string broker) => bench.Configure(
        $"""
        [influx]
        url = "{server.Url}"
        org = "glass"
        bucket = "feeders"
        [mqtt]
        host = "127.0.0.1"
        port = {this.broker.Port}
        {broker}
        """,
        DemoFeeder.Toml + DemoFeeder.Supply);
}
