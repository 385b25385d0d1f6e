using System.Text;
using System.Text.Json;
using MQTTnet;
using MQTTnet.Protocol;
using Xunit;

namespace StrokeWatch.EndToEnd.Tests.Mqtt;

/// <summary>Somebody else at the broker who hears every message and keeps its session.</summary>
internal sealed class Listener : IDisposable
{
    private readonly IMqttClient client = new MqttClientFactory().CreateMqttClient();
    private readonly Lock gate = new();
    private readonly List<(string Topic, string Payload, bool Retained)> heard = [];

    private Listener()
    {
        client.ApplicationMessageReceivedAsync += message =>
        {
            lock (gate)
            {
                heard.Add((message.ApplicationMessage.Topic, Encoding.UTF8.GetString(message.ApplicationMessage.Payload), message.ApplicationMessage.Retain));
            }

            return Task.CompletedTask;
        };
    }

    public static async Task<Listener> At(Mosquitto broker)
    {
        var listener = new Listener();
        await listener.client.ConnectAsync(new MqttClientOptionsBuilder().WithTcpServer("127.0.0.1", broker.Port).WithTlsOptions(tls => tls.UseTls(false))
            .WithCredentials(Mosquitto.User, Mosquitto.Password).WithTimeout(TimeSpan.FromSeconds(20)).WithKeepAlivePeriod(TimeSpan.FromMinutes(2)).Build());
        await listener.client.SubscribeAsync(new MqttTopicFilterBuilder().WithTopic("#").WithQualityOfServiceLevel(MqttQualityOfServiceLevel.AtLeastOnce).Build());
        return listener;
    }

    public List<(string Topic, JsonElement Message, bool Retained)> Heard(string topic)
    {
        lock (gate)
        {
            return [.. heard.Where(message => message.Topic == topic).Select(message => (message.Topic, JsonDocument.Parse(message.Payload).RootElement, message.Retained))];
        }
    }

    /// <summary>Waits until enough has been heard of a topic, or something of one message holds.</summary>
    public async Task<JsonElement> Until(string topic, Func<JsonElement, bool> asked)
    {
        for (var i = 0; i < 600; i++)
        {
            if (Heard(topic).Select(message => message.Message).Where(asked).ToList() is [.., var last])
            {
                return last;
            }

            await Task.Delay(50);
        }

        lock (gate)
        {
            Assert.Fail($"{topic} not heard; heard was:\n{string.Join("\n", heard)}");
        }

        return default;
    }

    public void Dispose() => client.Dispose();
}
