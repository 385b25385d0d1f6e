using System.Buffers;
using MQTTnet;
using MQTTnet.Protocol;
using StrokeWatch.Tests.Outputs.Mqtt;
using Xunit;

namespace StrokeWatch.EndToEnd.Tests.Mqtt;

/// <summary>A host at the broker who hears every Sparkplug message in order, and may send commands.</summary>
internal sealed class RawListener : IDisposable
{
    private readonly IMqttClient client = new MqttClientFactory().CreateMqttClient();
    private readonly Lock gate = new();
    private readonly List<(string Kind, SparkplugMessage Message, bool Retained)> heard = [];

    private RawListener()
    {
        client.ApplicationMessageReceivedAsync += message =>
        {
            if (message.ApplicationMessage.Topic.StartsWith("spBv1.0/STATE/", StringComparison.Ordinal))
            {
                return Task.CompletedTask;
            }

            lock (gate)
            {
                heard.Add((message.ApplicationMessage.Topic.Split('/')[2], WireReader.Payload(message.ApplicationMessage.Payload.ToArray()), message.ApplicationMessage.Retain));
            }

            return Task.CompletedTask;
        };
    }

    public IReadOnlyList<(string Kind, SparkplugMessage Message, bool Retained)> Heard
    {
        get
        {
            lock (gate)
            {
                return [.. heard];
            }
        }
    }

    public static async Task<RawListener> At(int port)
    {
        var listener = new RawListener();
        await listener.client.ConnectAsync(new MqttClientOptionsBuilder().WithTcpServer("127.0.0.1", port).WithTlsOptions(tls => tls.UseTls(false)).WithCleanStart(false).WithSessionExpiryInterval(600)
            .WithClientId("host").WithTimeout(TimeSpan.FromSeconds(20)).WithKeepAlivePeriod(TimeSpan.FromMinutes(2)).Build());
        await listener.client.SubscribeAsync(new MqttTopicFilterBuilder().WithTopic("spBv1.0/#").WithQualityOfServiceLevel(MqttQualityOfServiceLevel.AtLeastOnce).Build());
        return listener;
    }

    /// <summary>Sends a command, QoS 0 as tck-id-payloads-ncmd-qos demands.</summary>
    public Task Command(string topic, byte[] payload) => client.PublishAsync(new MqttApplicationMessageBuilder().WithTopic(topic).WithPayload(payload).Build());

    /// <summary>Says whether a host application is there: retained and at QoS 1 (tck-id-host-topic-phid-birth-payload, -qos, -retain).</summary>
    public Task State(string id, bool online, long timestamp) => client.PublishAsync(new MqttApplicationMessageBuilder().WithTopic($"spBv1.0/STATE/{id}")
        .WithPayload(FormattableString.Invariant($$"""{"online":{{(online ? "true" : "false")}},"timestamp":{{timestamp}}}""")).WithRetainFlag().WithQualityOfServiceLevel(MqttQualityOfServiceLevel.AtLeastOnce).Build());

    public async Task Until(Func<IReadOnlyList<(string Kind, SparkplugMessage Message, bool Retained)>, bool> asked)
    {
        for (var i = 0; i < 600; i++)
        {
            if (asked(Heard))
            {
                return;
            }

            await Task.Delay(50);
        }

        Assert.Fail("not heard; heard was: " + string.Join(" ", Heard.Select(message => $"{message.Kind}:{message.Message.Seq}")));
    }

    public void Dispose() => client.Dispose();
}
