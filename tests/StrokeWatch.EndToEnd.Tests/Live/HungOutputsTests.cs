using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Net.Sockets;
using System.Runtime.Versioning;
using System.Text.Json;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.EndToEnd.Tests.Commands;
using StrokeWatch.EndToEnd.Tests.Mqtt;
using Xunit;
using Xunit.Abstractions;

namespace StrokeWatch.EndToEnd.Tests.Live;

/// <summary>Outputs that take a connection and never answer, beside one that works.</summary>
[Collection(RealTime.Name)]
[SupportedOSPlatform("linux")]
public sealed class HungOutputsTests(ITestOutputHelper output) : IDisposable
{
    private readonly TrayBench bench = new();
    private readonly Mosquitto broker = new();
    private readonly TcpListener silent = new(IPAddress.Loopback, 0);

    public void Dispose()
    {
        silent.Dispose();
        broker.Dispose();
        bench.Dispose();
    }

    [SkippableFact]
    public async Task A_server_and_a_webhook_that_never_answer_hold_up_neither_the_broker_nor_the_measurement_nor_the_end()
    {
        Mosquitto.Need();
        await broker.Start();

        // The kernel takes connections up to the backlog; nobody ever reads what they bring.
        silent.Start(100);
        var port = ((IPEndPoint)silent.LocalEndpoint).Port;
        File.SetUnixFileMode(bench.Folder.Write("secret", "a-long-secret-of-the-sand-works"), UnixFileMode.UserRead | UnixFileMode.UserWrite);
        bench.Configure(string.Create(CultureInfo.InvariantCulture, $"""
            [alarms]
            lost_after_s = 1
            [influx]
            url = "http://127.0.0.1:{port}/"
            org = "glass"
            bucket = "feeders"
            [webhook]
            url = "http://127.0.0.1:{port}/alarms"
            secret_file = "secret"
            [mqtt]
            host = "127.0.0.1"
            port = {broker.Port}
            """));
        using var listener = await Listener.At(broker);
        bench.Sensor.PlugFrames(TraySensor.Feeder());
        using var daemon = Running.Start(bench.Folder.Path, "watch", "--config", "watch.toml");
        await listener.Until("strokewatch/cullet-feeder/stroke", message => message.GetProperty("pp_mm").ValueKind == JsonValueKind.Number);
        await daemon.Until(() => Database.GoodWindows(bench.Folder.At("store.db"), 8), "windows in the database");
        bench.Sensor.Unplug();
        var pulled = Stopwatch.GetTimestamp();
        await listener.Until("strokewatch/cullet-feeder/alarm", message => message.GetProperty("kind").GetString() == "sensor-lost" && message.GetProperty("raised").GetBoolean());
        var late = Stopwatch.GetElapsedTime(pulled).TotalSeconds;
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"the alarm was heard {late:0.00} s after the plug was pulled, of which 1 s is its own delay"));
        Assert.InRange(late, 0.5, 4);

        // What hangs becomes an alarm of its own, and that is told too; nothing was missed of what was measured.
        await daemon.Until(() => Database.Alarm(bench.Folder.At("store.db"), AlarmKind.OutputTrouble, raised: true), "output trouble in the database");
        await listener.Until("strokewatch/cullet-feeder/alarm", message => message.GetProperty("kind").GetString() == "output-trouble");
        var windows = Database.Windows(bench.Folder.At("store.db")).OrderBy(window => window.Id).ToList();
        Assert.All(windows.Zip(windows.Skip(1)), pair => Assert.InRange(pair.Second.Reading.StartSeconds - pair.First.Reading.StartSeconds - pair.First.Reading.LengthSeconds, -0.01, 0.01));
        var began = Stopwatch.GetTimestamp();
        daemon.Signal(Running.Terminate);
        var outcome = await daemon.End(TimeSpan.FromSeconds(20));
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"ended {Stopwatch.GetElapsedTime(began).TotalSeconds:0.0} s after it was told to, {windows.Count} windows"));
        Assert.Equal(1, outcome.Status);
    }
}
