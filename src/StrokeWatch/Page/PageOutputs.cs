using StrokeWatch.Outputs.Influx;
using StrokeWatch.Outputs.Mqtt;

namespace StrokeWatch.Page;

/// <summary>The outputs that the page shows; a new one is a line here.</summary>
internal static class PageOutputs
{
    /// <summary>Gives those that are configured.</summary>
    public static IReadOnlyList<PageOutput> Of(InfluxForwarder? influx, MqttForwarder? mqtt) =>
    [
        .. influx is null ? [] : (PageOutput[])[new("influx", () => influx.Health)],
        .. mqtt is null ? [] : (PageOutput[])[new("mqtt", () => mqtt.Health)],
    ];
}
