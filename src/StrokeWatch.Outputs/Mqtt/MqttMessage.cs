namespace StrokeWatch.Outputs.Mqtt;

/// <summary>A message for the broker.</summary>
/// <param name="Kind">The last part of its topic.</param>
/// <param name="Payload">One JSON object in UTF-8.</param>
/// <param name="Confirmed">Whether the broker must confirm it (QoS 1); else it may be lost (QoS 0).</param>
/// <param name="Retained">Whether the broker keeps it for those who come later.</param>
internal readonly record struct MqttMessage(string Kind, byte[] Payload, bool Confirmed, bool Retained);
