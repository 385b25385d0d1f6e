using StrokeWatch.Outputs.Influx;
using StrokeWatch.Outputs.Mqtt;
using StrokeWatch.Outputs.Webhook;

namespace StrokeWatch.Page;

/// <summary>The outputs that the page shows; a new one is a line here.</summary>
internal static class PageOutputs
{
    /// <summary>Gives those that are configured.</summary>
    public static IReadOnlyList<PageOutput> Of(InfluxForwarder? influx, MqttForwarder? mqtt, WebhookForwarder? webhook) =>
    [
        .. influx is null ? [] : (PageOutput[])[new("influx", () => influx.Health)],
        .. mqtt is null ? [] : (PageOutput[])[new("mqtt", () => mqtt.Health)],
        .. webhook is null ? [] : (PageOutput[])[new("webhook", () => webhook.Health)],
    ];
}
