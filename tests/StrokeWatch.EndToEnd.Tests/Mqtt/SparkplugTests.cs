using System.Runtime.Versioning;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Commands;
using StrokeWatch.EndToEnd.Tests.Commands;
using StrokeWatch.EndToEnd.Tests.Live;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Outputs.Mqtt;
using StrokeWatch.Outputs.Store;
using StrokeWatch.Tests.Outputs.Mqtt;
using Xunit;

namespace StrokeWatch.EndToEnd.Tests.Mqtt;

/// <summary>Sparkplug B over a real broker, read by a reader of its own. Clauses are those of the Eclipse Sparkplug specification 3.0, by their ids.</summary>
[Collection(RealTime.Name)]
public sealed class SparkplugTests : IDisposable
{
    private const string Commands = "spBv1.0/glass/NCMD/sand-feeder";
    private readonly TempFolder folder = new();
    private readonly Mosquitto broker = new();

    public void Dispose()
    {
        broker.Dispose();
        folder.Dispose();
    }

    [SkippableTheory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task Births_come_before_data_without_a_number_missing_and_again_when_a_host_asks(bool old)
    {
        Mosquitto.Need();
        await broker.Start();
        using var host = await RawListener.At(broker.Port);
        using var store = new SqliteStore(new() { Path = folder.At("store.db"), Feeder = "Sand feeder", BallastBytes = 0 }, TimeProvider.System);
        using (var teller = new MqttForwarder(Options(old), folder.At("store.db"), "Sand feeder", TimeProvider.System, (_, _) => { }))
        {
            await host.Until(heard => heard.Count >= 3);
            for (var i = 0; i < 300; i++)
            {
                teller.Stroke(Reading with { StrokeMetres = 1.6e-3 }, Verdict.InBand);
                await Task.Delay(5);
                if (i == 150)
                {
                    await host.Command(Commands, WireReader.Command("Node Control/Rebirth", true));
                    await host.Until(heard => heard.Count(message => message.Kind == "DBIRTH") == 2);
                }
            }

            Step(store, teller, 1);
            await host.Until(heard => heard.Any(message => message.Kind == "DDATA" && message.Message.Metrics.Exists(metric => metric.Name == "Alarms/high-stroke/state")));
            await host.Until(heard => heard.Any(message => message.Kind == "NDATA" && message.Message["Outbox/alarms_held"].Value is 0L));
        }

        // tck-id-payloads-ndeath-will-message-publisher-disconnect-mqtt311 and -mqtt50: the death is said at an orderly end too.
        await host.Until(heard => heard[^1].Kind == "NDEATH");
        var all = host.Heard;
        Assert.Equal(["NBIRTH", "DBIRTH"], all.Take(2).Select(message => message.Kind));
        Assert.Equal([(0L, (ulong?)null)], all.Where(message => message.Kind == "NDEATH").Select(message => ((long)message.Message["bdSeq"].Value!, message.Message.Seq)));
        Assert.All(all, message => Assert.False(message.Retained));
        Assert.Equal(2, all.Count(message => message.Kind == "NBIRTH"));
        Assert.All(all.Where(message => message.Kind == "NBIRTH"), birth => Assert.Equal(0L, birth.Message["bdSeq"].Value));
        Assert.True(all.Count > 260, $"{all.Count} heard");
        ulong expected = 0;
        string before = "";
        foreach (var (kind, message, _) in all.Where(message => message.Kind is not "NDEATH" and not "NCMD"))
        {
            // tck-id-topics-nbirth-seq-num, -payloads-dbirth-order, -payloads-ddata-seq-inc, -ndata-seq-inc.
            expected = kind == "NBIRTH" ? 0 : expected;
            Assert.Equal(expected, message.Seq);
            Assert.Equal(before == "NBIRTH", kind == "DBIRTH");
            (expected, before) = ((expected + 1) % 256, kind);
        }
    }

    [SkippableFact]
    public async Task Steps_of_alarms_that_a_hung_or_killed_broker_missed_arrive_all_the_same_and_in_order()
    {
        Mosquitto.Need();
        await broker.Start();
        using var store = new SqliteStore(new() { Path = folder.At("store.db"), Feeder = "Sand feeder", BallastBytes = 0 }, TimeProvider.System);
        using var teller = new MqttForwarder(Options(old: false), folder.At("store.db"), "Sand feeder", TimeProvider.System, (_, _) => { });
        List<int> ids = [];
        using (var host = await RawListener.At(broker.Port))
        {
            Step(store, teller, 5);
            await host.Until(heard => Steps(heard).Contains(5));
            broker.Hang();
            Step(store, teller, 5);
            await Until(() => teller.Health.Trouble is not null);
            broker.GoOn();
            await host.Until(heard => Steps(heard).Contains(10));
            ids.AddRange(Steps(host.Heard));
        }

        broker.Kill();
        Step(store, teller, 5);
        await Until(() => teller.Health.Trouble is not null);
        await broker.Start();
        using var again = await RawListener.At(broker.Port);
        await Until(() => teller.Health is { Trouble: null, Held: 0 });
        Step(store, teller, 1);
        await again.Until(heard => Steps(heard).Contains(16));

        // The host comes back after the broker and may miss what data at QoS 0 was sent before it subscribed: that is the specification's own limit; a birth holds the last state of each alarm.
        ids.AddRange(Steps(again.Heard));
        Assert.Equal(Enumerable.Range(1, 10), ids.Where(id => id <= 10).Distinct());
        Assert.Equal(ids.Where(id => id > 10).Order(), ids.Where(id => id > 10));
        Assert.Equal(16, teller.Health.Sent);
    }

    [SkippableTheory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task Births_wait_for_the_primary_host_and_its_going_is_a_death_until_it_is_back_with_no_step_lost(bool old)
    {
        Mosquitto.Need();
        await broker.Start();
        using var host = await RawListener.At(broker.Port);
        using var store = new SqliteStore(new() { Path = folder.At("store.db"), Feeder = "Sand feeder", BallastBytes = 0 }, TimeProvider.System);
        using var teller = new MqttForwarder(Options(old) with { PrimaryHost = "control-room" }, folder.At("store.db"), "Sand feeder", TimeProvider.System, (_, _) => { });

        // tck-id-message-flow-edge-node-birth-publish-phid-wait, -wait-id, -wait-online: none, another's and an offline one do not count.
        Step(store, teller, 3);
        await host.State("another", online: true, 5000);
        await host.State("control-room", online: false, 1000);
        await Task.Delay(1500);
        Assert.Empty(host.Heard);
        await host.State("control-room", online: true, 2000);
        await host.Until(heard => Steps(heard).Contains(3));
        Assert.Equal(["NBIRTH", "DBIRTH"], host.Heard.Take(2).Select(message => message.Kind));
        var first = (long)host.Heard[0].Message["bdSeq"].Value!;

        // tck-id-operational-behavior-edge-node-termination-host-offline-timestamp: older than the last counts for nothing.
        await host.State("control-room", online: false, 1500);
        teller.Stroke(Reading with { StrokeMetres = 1.6e-3 }, Verdict.InBand);
        await host.Until(heard => heard[^1].Kind == "DDATA" && heard[^1].Message.Metrics[0].Value is 1.6);
        await Task.Delay(500);
        Assert.DoesNotContain(host.Heard, message => message.Kind == "NDEATH");

        // tck-id-message-flow-edge-node-birth-publish-phid-offline, tck-id-operational-behavior-edge-node-termination-host-offline.
        await host.State("control-room", online: false, 3000);
        await host.Until(heard => heard[^1].Kind == "NDEATH");
        Assert.Equal(first, (long)host.Heard[^1].Message["bdSeq"].Value!);
        var count = host.Heard.Count;
        Step(store, teller, 2);
        teller.Stroke(Reading with { StrokeMetres = 1.5e-3 }, Verdict.InBand);
        await Until(() => teller.Health.Trouble?.Contains("primary host control-room is not online", StringComparison.Ordinal) == true && teller.Health.Held == 2);
        Assert.Equal(count, host.Heard.Count);

        await host.State("control-room", online: true, 4000);
        await host.Until(heard => Steps(heard).Contains(5));
        var again = host.Heard.Skip(count).ToList();
        Assert.Equal(["NBIRTH", "DBIRTH"], again.Take(2).Select(message => message.Kind));
        Assert.True((long)again[0].Message["bdSeq"].Value! > first);
        Assert.Equal([1, 2, 3, 4, 5], Steps(host.Heard));
        await Until(() => teller.Health is { Trouble: null, Held: 0 });
    }

    [SkippableFact]
    [SupportedOSPlatform("linux")]
    public async Task A_killed_daemon_s_death_is_told_by_its_will_and_the_next_birth_has_the_next_number()
    {
        Mosquitto.Need();
        await broker.Start();
        using var host = await RawListener.At(broker.Port);
        using var sensor = new TraySensor(folder.At("tray-sensor"));
        folder.Write("cullet.feeder.toml", DemoFeeder.Toml);
        folder.Write("watch.toml", $"""
            feeder = "cullet.feeder.toml"
            [sensor]
            port = "{folder.At("tray-sensor")}"
            protocol = "frames"
            [store]
            path = "store.db"
            [mqtt]
            host = "127.0.0.1"
            port = {broker.Port}
            profile = "sparkplug"
            group = "glass"
            topic = "cullet"
            """);
        sensor.PlugFrames(TraySensor.Feeder());
        using (var killed = Running.Start(folder.Path, "watch", "--config", "watch.toml"))
        {
            await host.Until(heard => heard.Any(message => message.Kind == "DDATA" && message.Message.Metrics[0].Value is > 1.68 and < 1.75));
            sensor.Unplug();
            await host.Until(heard => heard.Any(message => message.Kind == "DDATA" && message.Message.Metrics.Exists(metric => metric is { Name: "Alarms/sensor-lost/stands", Value: true })));
            killed.Signal(Running.Kill);
            await killed.End();
        }

        await host.Until(heard => heard[^1].Kind == "NDEATH");
        Assert.Equal(0L, host.Heard[^1].Message["bdSeq"].Value);
        using var daemon = Running.Start(folder.Path, "watch", "--config", "watch.toml");
        await host.Until(heard => heard.Count(message => message.Kind == "NBIRTH") == 2);
        Assert.Equal(1L, host.Heard.Last(message => message.Kind == "NBIRTH").Message["bdSeq"].Value);
        daemon.Signal(Running.Terminate);
        await daemon.End(TimeSpan.FromSeconds(15));
        await host.Until(heard => heard[^1].Kind == "NDEATH");
        Assert.Equal(1L, host.Heard[^1].Message["bdSeq"].Value);
    }

    private static readonly WindowReading Reading = new() { StartSeconds = 0, LengthSeconds = 0.5, Quality = WindowQuality.Good, Motion = MotionState.Running };

    private MqttOptions Options(bool old) => new()
    {
        Host = "127.0.0.1",
        Port = broker.Port,
        Topic = "sand-feeder",
        Group = "glass",
        Profile = MqttProfile.Sparkplug,
        Old = old,
        Heartbeat = TimeSpan.FromSeconds(1),
        Patience = TimeSpan.FromSeconds(2),
    };

    private static List<int> Steps(IReadOnlyList<(string Kind, SparkplugMessage Message, bool Retained)> heard) =>
    [
        .. heard.Where(message => message.Kind == "DDATA").SelectMany(message => message.Message.Metrics).Where(metric => metric.Name == "Alarms/high-stroke/id")
            .Select(metric => int.Parse(((string)metric.Value!).Split('-')[1], System.Globalization.CultureInfo.InvariantCulture)),
    ];

    private static void Step(SqliteStore store, MqttForwarder teller, int count)
    {
        for (var i = 0; i < count; i++)
        {
            _ = store.Journal(new(
                new(AlarmKind.HighStroke), AlarmAct.Activate, AlarmState.Normal, AlarmState.Unacknowledged, AlarmState.Unacknowledged, DateTimeOffset.UtcNow, "measurement", "Stroke high.", null));
            teller.Alarm();
        }
    }

    private static async Task Until(Func<bool> asked)
    {
        for (var i = 0; i < 1200 && !asked(); i++)
        {
            await Task.Delay(50);
        }

        Assert.True(asked());
    }
}
