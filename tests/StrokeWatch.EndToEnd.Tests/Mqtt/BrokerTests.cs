using System.Diagnostics;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.EndToEnd.Tests.Commands;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Outputs.Mqtt;
using StrokeWatch.Outputs.Store;
using Xunit;
using Xunit.Abstractions;

namespace StrokeWatch.EndToEnd.Tests.Mqtt;

/// <summary>Tells a real broker, from a real store and on the real clock.</summary>
public sealed class BrokerTests : IDisposable
{
    private const string Status = "strokewatch/sand-feeder/status";
    private const string Stroke = "strokewatch/sand-feeder/stroke";
    private const string Alarm = "strokewatch/sand-feeder/alarm";

    private static readonly WindowReading Reading = new() { StartSeconds = 0, LengthSeconds = 0.5, Quality = WindowQuality.Good, Motion = MotionState.Running };

    private readonly ITestOutputHelper output;
    private readonly TempFolder folder = new();
    private readonly Mosquitto broker = new();
    private readonly List<string> told = [];
    private readonly SqliteStore store;
    private int alarms;

    public BrokerTests(ITestOutputHelper output)
    {
        this.output = output;
        store = new(new() { Path = folder.At("store.db"), Feeder = "Sand feeder", BallastBytes = 0 }, TimeProvider.System);
    }

    public void Dispose()
    {
        store.Dispose();
        broker.Dispose();
        folder.Dispose();
    }

    [SkippableFact]
    public async Task Status_stroke_and_alarms_are_heard_by_those_who_listen_and_the_status_by_those_who_come_later()
    {
        Mosquitto.Need();
        await broker.WithUser().Start();
        using var listener = await Listener.At(broker);
        using (var told = Tell())
        {
            var online = await listener.Until(Status, message => message.GetProperty("status").GetString() == "online");
            Assert.Equal("Sand feeder", online.GetProperty("feeder").GetString());
            told.Stroke(Reading with { StrokeMetres = 1.65e-3, UncertaintyMetres = 3e-5, FrequencyHz = 50.02 }, Verdict.InBand);
            var stroke = await listener.Until(Stroke, _ => true);
            Assert.Equal((1.65, 0.064961, "in-band"), (stroke.GetProperty("pp_mm").GetDouble(), stroke.GetProperty("pp_in").GetDouble(), stroke.GetProperty("verdict").GetString()));
            told.Stroke(Reading with { Quality = WindowQuality.Gap, Reason = "samples are missing" }, Verdict.Unmeasurable);
            var none = await listener.Until(Stroke, message => message.GetProperty("pp_mm").ValueKind == System.Text.Json.JsonValueKind.Null);
            Assert.Equal("samples are missing", none.GetProperty("reason").GetString());

            var clock = Stopwatch.GetTimestamp();
            Raise(told);
            var alarm = await listener.Until(Alarm, _ => true);
            output.WriteLine($"alarm heard {Stopwatch.GetElapsedTime(clock).TotalMilliseconds:0} ms after it was given to the store");
            Assert.Equal(("over-stroke", true, 1.95, 1), (alarm.GetProperty("kind").GetString(), alarm.GetProperty("raised").GetBoolean(), alarm.GetProperty("pp_mm").GetDouble(), Ids(listener).Count));
            using var late = await Listener.At(broker);
            await late.Until(Status, message => message.GetProperty("status").GetString() == "online");
            Assert.True(late.Heard(Status)[0].Retained);
            Assert.Empty(late.Heard(Alarm));
        }

        var offline = await listener.Until(Status, message => message.GetProperty("status").GetString() == "offline");
        Assert.Equal("the program was stopped", offline.GetProperty("reason").GetString());
    }

    [SkippableFact]
    public async Task Each_step_of_an_alarm_s_life_is_told_acknowledging_shelving_and_coming_back_too_and_none_of_the_past()
    {
        Mosquitto.Need();
        AlarmId high = new(AlarmKind.HighStroke);
        var noon = DateTimeOffset.UtcNow;
        await store.Journal(new(high, AlarmAct.Activate, AlarmState.Normal, AlarmState.Unacknowledged, AlarmState.Unacknowledged, noon.AddYears(-1), "measurement", "Long ago.", null));
        await broker.WithUser().Start();
        using var listener = await Listener.At(broker);
        using var teller = Tell();
        await listener.Until(Status, message => message.GetProperty("status").GetString() == "online");
        (AlarmAct Act, AlarmState From, AlarmState To, string By)[] life =
        [
            (AlarmAct.Activate, AlarmState.Normal, AlarmState.Unacknowledged, "measurement"), (AlarmAct.Acknowledge, AlarmState.Unacknowledged, AlarmState.Acknowledged, "Operator"),
            (AlarmAct.Shelve, AlarmState.Acknowledged, AlarmState.Shelved, "Operator"), (AlarmAct.ShelfEnds, AlarmState.Shelved, AlarmState.Acknowledged, "time"),
            (AlarmAct.Clear, AlarmState.Acknowledged, AlarmState.Normal, "measurement"),
        ];
        foreach (var (act, from, to, by) in life)
        {
            _ = store.Journal(new(high, act, from, to, to, DateTimeOffset.UtcNow, by, "", act == AlarmAct.Shelve ? noon.AddHours(1) : null));
            teller.Alarm();
        }

        const string Steps = "strokewatch/sand-feeder/alarm-step";
        await Until(() => listener.Heard(Steps).Count >= life.Length);
        var heard = listener.Heard(Steps).Select(message => message.Message).ToList();
        Assert.Equal(
            life.Select(step => (StrokeWatch.Assessment.Names.Of(step.Act), StrokeWatch.Assessment.Names.Of(step.To), step.By)),
            heard.Select(step => (step.GetProperty("act").GetString()!, step.GetProperty("to").GetString()!, step.GetProperty("by").GetString()!)));
        Assert.Equal("2-6", string.Join('-', heard[0].GetProperty("id").GetString()!.Split('-')[1], heard[^1].GetProperty("id").GetString()!.Split('-')[1]));
    }

    [SkippableFact]
    public async Task Alarms_of_the_time_without_a_broker_arrive_once_it_is_there_in_order_and_each_with_its_own_id()
    {
        Mosquitto.Need();
        using var teller = Tell();
        for (var i = 0; i < 120; i++)
        {
            Raise(teller);
        }

        await Until(() => teller.Health is { Trouble: not null });
        Assert.Contains("cannot be reached", teller.Health.Trouble, StringComparison.Ordinal);
        await broker.WithUser().Start();
        using var listener = await Listener.At(broker);
        await Until(() => teller.Health is { Trouble: null, Held: 0, Sent: 120 });
        await Until(() => listener.Heard(Alarm).Count >= 120);
        Assert.Equal(Enumerable.Range(1, 120), Ids(listener));
    }

    [SkippableFact]
    public async Task A_broker_that_hangs_is_noticed_and_what_it_missed_arrives_when_it_goes_on()
    {
        Mosquitto.Need();
        await broker.WithUser().Start();
        using var listener = await Listener.At(broker);
        using var teller = Tell();
        Raise(teller);
        await Until(() => Ids(listener).Count == 1);
        broker.Hang();
        var began = Stopwatch.GetTimestamp();
        for (var i = 0; i < 10; i++)
        {
            teller.Stroke(Reading with { StrokeMetres = 1.6e-3 }, Verdict.InBand);
        }

        Raise(teller);
        await Until(() => teller.Health.Trouble is not null);
        output.WriteLine($"noticed after {Stopwatch.GetElapsedTime(began).TotalSeconds:0.0} s");
        Assert.Equal(1, teller.Health.Held);
        broker.GoOn();
        await Until(() => Ids(listener).Distinct().Count() == 2 && teller.Health.Trouble is null);
        Assert.Equal([1, 2], Ids(listener).Distinct());
        await listener.Until(Status, message => message.GetProperty("status").GetString() == "online");
    }

    [SkippableFact]
    public async Task A_broker_that_is_killed_and_comes_back_hears_every_alarm()
    {
        Mosquitto.Need();
        await broker.WithUser().Start();
        using var teller = Tell();
        Raise(teller);
        await Until(() => teller.Health.Sent == 1);
        broker.Kill();
        Raise(teller);
        await Until(() => teller.Health.Trouble is not null);
        await broker.Start();
        using var listener = await Listener.At(broker);
        Raise(teller);
        await Until(() => teller.Health is { Trouble: null, Held: 0 } && teller.Health.Sent >= 3);
        await Until(() => Ids(listener).Contains(3));
        Assert.Contains(told, words => words.EndsWith("is connected again", StringComparison.Ordinal));
    }

    [SkippableFact]
    public async Task A_wrong_password_is_said_and_alarms_are_held()
    {
        Mosquitto.Need();
        await broker.WithUser().Start();
        using var teller = Tell(o => o with { PasswordPath = Secret("wrong") });
        Raise(teller);
        await Until(() => teller.Health.Trouble is not null);
        Assert.Contains("does not let us in", teller.Health.Trouble, StringComparison.Ordinal);
        Assert.Contains("password_file", teller.Health.Trouble, StringComparison.Ordinal);
        Assert.Equal(0, teller.Health.Sent);
        Assert.Contains("does not let us in", MqttProbe.Trouble(Options(o => o with { PasswordPath = Secret("wrong") })), StringComparison.Ordinal);
        Assert.Null(MqttProbe.Trouble(Options()));
    }

    [SkippableFact]
    public async Task An_encrypted_broker_is_told_where_its_certificate_comes_from_the_authority_named_and_not_otherwise()
    {
        Mosquitto.Need();
        Skip.IfNot(File.Exists("/usr/bin/openssl"), "openssl is not installed.");
        await broker.WithTls().Start();
        using var other = new Mosquitto().WithTls();
        using (var teller = Tell(o => o with { Tls = true, CaPath = broker.At("ca.pem") }))
        {
            Raise(teller);
            await Until(() => teller.Health.Sent == 1);
        }

        Assert.Contains("certificate that is not trusted", MqttProbe.Trouble(Options(o => o with { Tls = true, CaPath = other.At("ca.pem") })), StringComparison.Ordinal);
        Assert.Contains("certificate that is not trusted", MqttProbe.Trouble(Options(o => o with { Tls = true })), StringComparison.Ordinal);

        // The certificate is for the address 127.0.0.1, not for this name.
        Assert.Contains("certificate that is not trusted", MqttProbe.Trouble(Options(o => o with { Tls = true, CaPath = broker.At("ca.pem"), Host = "localhost" })), StringComparison.Ordinal);
        Assert.Contains("cannot be reached", MqttProbe.Trouble(Options(o => o with { Patience = TimeSpan.FromSeconds(3) })), StringComparison.Ordinal);
    }

    private static List<int> Ids(Listener listener) =>
        [.. listener.Heard(Alarm).Select(message => int.Parse(message.Message.GetProperty("id").GetString()!.Split('-')[1], System.Globalization.CultureInfo.InvariantCulture))];

    private MqttOptions Options(Func<MqttOptions, MqttOptions>? change = null)
    {
        var options = new MqttOptions
        {
            Host = "127.0.0.1",
            Port = broker.Port,
            Topic = MqttSlug.Of("Sand feeder"),
            User = Mosquitto.User,
            PasswordPath = Secret(Mosquitto.Password),
            Heartbeat = TimeSpan.FromSeconds(1),
            Patience = TimeSpan.FromSeconds(2),
        };
        return change is null ? options : change(options);
    }

    private MqttForwarder Tell(Func<MqttOptions, MqttOptions>? change = null) =>
        new(Options(change), folder.At("store.db"), "Sand feeder", TimeProvider.System, (_, words) => told.Add(words));

    private string Secret(string text)
    {
        var path = folder.Write("password-" + text, text);
        if (!OperatingSystem.IsWindows())
        {
            File.SetUnixFileMode(path, UnixFileMode.UserRead | UnixFileMode.UserWrite);
        }

        return path;
    }

    private void Raise(MqttForwarder teller)
    {
        alarms++;
        _ = store.Alarm(new(AlarmKind.OverStroke, alarms % 2 == 1, alarms, 1.95e-3, "Over-stroke: stop the feeder."));
        teller.Alarm();
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
