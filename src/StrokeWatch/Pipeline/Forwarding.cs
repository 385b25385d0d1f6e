using Serilog;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Outputs.Influx;
using StrokeWatch.Outputs.Mqtt;
using StrokeWatch.Outputs.Webhook;
using StrokeWatch.Pipeline.Alarms;

namespace StrokeWatch.Pipeline;

/// <summary>Starts what forwards the store and lets its trouble, and the end of it, be read in the log.</summary>
internal static class Forwarding
{
    /// <summary>Starts to forward to a time-series server; null where none is configured.</summary>
    public static InfluxForwarder? Start(InfluxOptions? influx, string store, FeederDescription feeder, TimeProvider time, ILogger log) =>
        influx is null ? null : InfluxForwarder.Start(influx, store, feeder.Name, time, (trouble, words) => Tell(log, trouble, words), window => SupplyNow.Of(window, feeder).FullStroke);

    /// <summary>Starts to tell a broker; null where none is configured.</summary>
    public static MqttForwarder? Start(MqttOptions? mqtt, string store, string feeder, TimeProvider time, ILogger log) =>
        mqtt is null ? null : new MqttForwarder(mqtt, store, feeder, time, (trouble, words) => Tell(log, trouble, words));

    /// <summary>Starts to post steps of alarms; null where nobody is to be told.</summary>
    public static WebhookForwarder? Start(WebhookOptions? webhook, string store, string feeder, TimeProvider time, ILogger log) =>
        webhook is null ? null : WebhookForwarder.Start(webhook, store, feeder, time, (trouble, words) => Tell(log, trouble, words));

    /// <summary>Gives what hears the chain for the broker.</summary>
    public static IReadOnlyList<IChainListener> Hear(MqttForwarder? mqtt, FeederDescription feeder) => mqtt is null ? [] : [new MqttListener(mqtt, feeder)];

    /// <summary>Says that a step of an alarm is on its way into the store.</summary>
    public static void Alarmed(MqttForwarder? mqtt, WebhookForwarder? webhook)
    {
        mqtt?.Alarm();
        webhook?.Alarm();
    }

    /// <summary>Tells the alarms while rows or messages do not get through, or the relay cannot be driven.</summary>
    public static void Watch(InfluxForwarder? influx, MqttForwarder? mqtt, WebhookForwarder? webhook, RelayListener? relay, AlarmDesk alarms)
    {
        if (webhook?.Health.Trouble is not null)
        {
            alarms.Failed("posting to the webhook");
        }

        if (relay?.Trouble is not null)
        {
            alarms.Failed("the relay");
        }

        if (mqtt?.Health.Trouble is not null)
        {
            alarms.Failed("telling the broker");
        }

        if (influx?.Health.Trouble is not null)
        {
            alarms.Failed("forwarding to the time-series server");
        }
    }

    /// <summary>Logs trouble and its end.</summary>
    public static void Tell(ILogger log, bool trouble, string words)
    {
        if (trouble)
        {
            log.Warning("{Words:l}", words);
        }
        else
        {
            log.Information("{Words:l}", words);
        }
    }
}
