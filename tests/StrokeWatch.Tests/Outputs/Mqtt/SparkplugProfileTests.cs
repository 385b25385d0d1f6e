using StrokeWatch.Assessment.Reports;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Measurement.Supply;
using StrokeWatch.Outputs.Forwarding;
using StrokeWatch.Outputs.Mqtt.Sparkplug;
using StrokeWatch.Sensors.Simulated;
using StrokeWatch.Tests.Outputs.Store;
using Xunit;

namespace StrokeWatch.Tests.Outputs.Mqtt;

/// <summary>Clauses are those of the Eclipse Sparkplug specification 3.0, by their ids.</summary>
public sealed class SparkplugProfileTests
{
    private static readonly DateTimeOffset Noon = new(2026, 3, 29, 12, 0, 0, 250, TimeSpan.Zero);
    private static readonly ulong NoonMs = (ulong)Noon.ToUnixTimeMilliseconds();
    private readonly SparkplugProfile profile = new(new() { Host = "broker", Port = 1883, Topic = "sand-feeder", Group = "Glass" }, "Sand feeder");

    [Fact]
    public void A_birth_follows_its_will_under_the_same_number_and_declares_every_metric_that_data_may_hold()
    {
        var will = profile.Will(257, Noon);
        Assert.Equal(("spBv1.0/Glass/NDEATH/sand-feeder", true, false), (will.Topic, will.Confirmed, will.Retained));
        var death = WireReader.Payload(will.Payload);

        // tck-id-payloads-ndeath-seq, -ndeath-bdseq; bdSeq wraps as seq does.
        Assert.Null(death.Seq);
        Assert.Equal((4, 1L), (death["bdSeq"].Type, (long)death["bdSeq"].Value!));

        var born = profile.Born(Noon, 3);
        Assert.Equal(["spBv1.0/Glass/NBIRTH/sand-feeder", "spBv1.0/Glass/DBIRTH/sand-feeder/feeder"], born.Select(message => message.Topic));

        // tck-id-payloads-nbirth-qos, -retain; the same of DBIRTH.
        Assert.All(born, message => Assert.Equal((false, false), (message.Confirmed, message.Retained)));
        var (node, device) = (WireReader.Payload(born[0].Payload), WireReader.Payload(born[1].Payload));

        // tck-id-topics-nbirth-seq-num, tck-id-payloads-dbirth-seq-inc, tck-id-payloads-nbirth-timestamp.
        Assert.Equal((0UL, 1UL, NoonMs, NoonMs), (node.Seq!.Value, device.Seq!.Value, node.Timestamp!.Value, device.Timestamp!.Value));

        // tck-id-payloads-nbirth-bdseq-repeat, -nbirth-rebirth-req.
        Assert.Equal(1L, node["bdSeq"].Value);
        Assert.Equal((11, (object)false), (node["Node Control/Rebirth"].Type, node["Node Control/Rebirth"].Value!));
        Assert.Equal(3L, node["Outbox/alarms_held"].Value);
        Assert.All(device.Metrics, metric => Assert.True(metric.IsNull && metric.Value is null));
        Assert.Equal(("mm", "Hz", (string?)null), (device["Stroke/pp"].Unit, device["Stroke/frequency"].Unit, device["Stroke/verdict"].Unit));

        var data = WireReader.Payload(profile.Stroke(Noon, StoreFolder.Reading(0, 1.65e-3) with { FrequencyHz = 50.02, UncertaintyMetres = double.NaN }, Verdict.InBand).Payload);
        var step = WireReader.Payload(profile.Row("alarm_journal", Step(5, "strike"), Noon).Payload);
        Assert.Equal((2UL, 3UL), (data.Seq!.Value, step.Seq!.Value));
        Assert.Empty(data.Metrics.Concat(step.Metrics).Select(metric => (metric.Name, metric.Type)).Except(device.Metrics.Select(metric => (metric.Name, metric.Type))));
        Assert.Equal((1.65, 50.02, "in-band", false), ((double)data["Stroke/pp"].Value!, (double)data["Stroke/frequency"].Value!, (string)data["Stroke/verdict"].Value!, (bool)data["Stroke/strike"].Value!));
        Assert.True(data["Stroke/uncertainty"].IsNull);
        Assert.Equal(
            (true, "unacknowledged", "measurement", $"{NoonMs - 5000}-5", NoonMs - 5000),
            ((bool)step["Alarms/strike/stands"].Value!, (string)step["Alarms/strike/state"].Value!, (string)step["Alarms/strike/by"].Value!, (string)step["Alarms/strike/id"].Value!, step["Alarms/strike/state"].Timestamp!.Value));

        // A rebirth (tck-id-operational-behavior-data-commands-rebirth-action-3): the same bdSeq, seq anew, and what is known by now.
        var again = profile.Born(Noon.AddSeconds(9), 0);
        Assert.Equal((1L, 0UL, 1UL), ((long)WireReader.Payload(again[0].Payload)["bdSeq"].Value!, WireReader.Payload(again[0].Payload).Seq!.Value, WireReader.Payload(again[1].Payload).Seq!.Value));
        Assert.Equal(1.65, WireReader.Payload(again[1].Payload)["Stroke/pp"].Value);
        Assert.Equal("unacknowledged", WireReader.Payload(again[1].Payload)["Alarms/strike/state"].Value);
    }

    [Fact]
    public void A_voltage_is_declared_at_birth_comes_once_it_is_read_and_is_null_again_when_it_is_lost()
    {
        var feeder = DemoScenario.Feeder with { Supply = new() { FullVolts = 230 } };
        SparkplugMessage Stroke(SupplyReading? supply)
        {
            var reading = StoreFolder.Reading(0, 1.62e-3) with { Supply = supply };
            return WireReader.Payload(profile.Stroke(Noon, reading, Verdict.InBand, supply is null ? null : SupplyNow.Of(reading, feeder)).Payload);
        }

        string[] names = ["Supply/rms", "Supply/mains", "Supply/phase", "Supply/reason", "Stroke/full_voltage_pp"];
        _ = profile.Will(0, Noon);
        var birth = WireReader.Payload(profile.Born(Noon, 0)[1].Payload);
        Assert.All(names, name => Assert.True(birth[name].IsNull));
        Assert.Equal(("V", "V", "deg", "mm"), (birth["Supply/rms"].Unit, birth["Supply/mains"].Unit, birth["Supply/phase"].Unit, birth["Stroke/full_voltage_pp"].Unit));
        Assert.DoesNotContain(Stroke(null).Metrics, metric => names.Contains(metric.Name));

        var read = Stroke(new() { RmsVolts = 207, MainsVolts = 207, FundamentalVolts = 206.5, PhaseDegrees = -41.25, ConductionShare = 1 });
        Assert.Equal((207.0, 207.0, -41.25), ((double)read["Supply/rms"].Value!, (double)read["Supply/mains"].Value!, (double)read["Supply/phase"].Value!));
        Assert.Equal(2, (double)read["Stroke/full_voltage_pp"].Value!, 1e-9);
        var again = WireReader.Payload(profile.Born(Noon, 0)[1].Payload);
        Assert.Equal(207.0, again["Supply/rms"].Value);
        Assert.Equal(again.Metrics.Count, again.Metrics.Select(metric => metric.Name).Distinct().Count());
        Assert.Equal(birth.Metrics.Select(metric => metric.Name).Order(), again.Metrics.Select(metric => metric.Name).Order());

        var lost = Stroke(null);
        Assert.All(names, name => Assert.True(lost[name].IsNull));
        Assert.Equal("samples of the voltage are missing", Stroke(new() { Reason = "samples of the voltage are missing" })["Supply/reason"].Value);
    }

    [Fact]
    public void Every_message_counts_one_on_and_255_is_followed_by_0()
    {
        // tck-id-payloads-ddata-seq-inc, -ndata-seq-inc.
        _ = profile.Will(0, Noon);
        var seqs = profile.Born(Noon, 0).Select(message => WireReader.Payload(message.Payload).Seq!.Value).ToList();
        for (var i = 0; i < 600; i++)
        {
            var message = i % 3 == 0 ? profile.Beat(Noon, 0) : i % 3 == 1 ? profile.Stroke(Noon, StoreFolder.Reading(i), Verdict.InBand) : profile.Row("alarm_journal", Step(i, i % 2 == 0 ? "strike" : "a-later-word"), Noon);
            seqs.Add(WireReader.Payload(message.Payload).Seq!.Value);
        }

        Assert.Equal(Enumerable.Range(0, 602).Select(i => (ulong)(i % 256)), seqs);
    }

    [Fact]
    public void Only_a_command_that_sets_the_rebirth_metric_to_true_asks_for_one()
    {
        Assert.Equal("spBv1.0/Glass/NCMD/sand-feeder", profile.Commands);
        Assert.True(profile.Asks(WireReader.Command("Node Control/Rebirth", true)));
        Assert.False(profile.Asks(WireReader.Command("Node Control/Rebirth", false)));
        Assert.False(profile.Asks(WireReader.Command("Node Control/Reboot", true)));
        var random = new Random(7);
        for (var i = 0; i < 20_000; i++)
        {
            var rubbish = new byte[random.Next(0, 60)];
            random.NextBytes(rubbish);
            Assert.False(profile.Asks(rubbish));
        }

        var whole = WireReader.Command("Node Control/Rebirth", true);
        Assert.All(Enumerable.Range(0, whole.Length - 1), length => Assert.False(profile.Asks(whole.AsSpan(0, length))));
    }

    private static WaitingRow Step(int id, string alarm) => new(
        id, (long)NoonMs - 5000,
        [new("feeder", "Sand feeder"), new("alarm", alarm), new("act", "activate"), new("state_from", "normal"), new("state_to", "unacknowledged"), new("beneath", "unacknowledged"), new("by", "measurement"), new("words", "ARMATURE STRIKE")]);
}
