using System.Runtime.Versioning;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.EndToEnd.Tests.Commands;
using StrokeWatch.EndToEnd.Tests.Influx;
using StrokeWatch.EndToEnd.Tests.Mqtt;
using Xunit;

namespace StrokeWatch.EndToEnd.Tests.Live;

/// <summary>The daemon as it runs on a board, with a real time-series server and a real broker.</summary>
[Collection(RealTime.Name)]
[SupportedOSPlatform("linux")]
public sealed class OutputsTests : IDisposable
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
    public async Task What_the_daemon_measures_and_alarms_reaches_the_server_and_the_broker_and_a_broker_lost_is_an_alarm()
    {
        VictoriaMetrics.Need();
        Mosquitto.Need();
        await server.Start();
        await broker.WithUser().Start();
        using var listener = await Listener.At(broker);
        File.SetUnixFileMode(bench.Folder.Write("password", Mosquitto.Password), UnixFileMode.UserRead | UnixFileMode.UserWrite);
        bench.Configure($"""
            [influx]
            url = "{server.Url}"
            org = "glass"
            bucket = "feeders"
            [mqtt]
            host = "127.0.0.1"
            port = {broker.Port}
            user = "{Mosquitto.User}"
            password_file = "password"
            """);
        bench.Sensor.PlugFrames(TraySensor.Feeder());
        using var daemon = Running.Start(bench.Folder.Path, "watch", "--config", "watch.toml");
        var stroke = await listener.Until("strokewatch/cullet-feeder/stroke", message => message.GetProperty("verdict").GetString() == "in-band");
        Assert.Equal(TraySensor.StrokeMillimetres, stroke.GetProperty("pp_mm").GetDouble(), 0.03);

        bench.Sensor.Unplug();
        await daemon.Until(() => Database.Alarm(bench.Folder.At("store.db"), AlarmKind.SensorLost, raised: true), "lost-sensor alarm in the database");
        await listener.Until("strokewatch/cullet-feeder/alarm", message => message.GetProperty("kind").GetString() == "sensor-lost" && message.GetProperty("raised").GetBoolean());

        var stored = Database.Windows(bench.Folder.At("store.db"));
        Assert.NotEmpty(stored);
        List<(long Ms, double Value)> held = [];
        for (var i = 0; i < 300 && held.Count < stored.Count; i++)
        {
            held = (await server.Samples("strokewatch_window_id")).GetValueOrDefault("Cullet feeder") ?? [];
            await Task.Delay(100);
        }

        Assert.Equal(stored.Select(window => (window.Utc.ToUnixTimeMilliseconds(), (double)window.Id)), held.Take(stored.Count));
        Assert.NotEmpty(await server.Samples("strokewatch_alarm_raised"));

        broker.Kill();
        await daemon.Until(() => Database.Alarm(bench.Folder.At("store.db"), AlarmKind.OutputTrouble, raised: true), "output trouble in the database");
        Assert.Contains("cannot be reached", daemon.Error, StringComparison.Ordinal);
        await broker.Start();
        using var again = await Listener.At(broker);
        await again.Until("strokewatch/cullet-feeder/alarm", message => message.GetProperty("kind").GetString() == "output-trouble");
        daemon.Signal(Running.Terminate);
        await daemon.End(TimeSpan.FromSeconds(15));
        var offline = await again.Until("strokewatch/cullet-feeder/status", message => message.GetProperty("status").GetString() == "offline");
        Assert.Equal("the program was stopped", offline.GetProperty("reason").GetString());
    }
}
