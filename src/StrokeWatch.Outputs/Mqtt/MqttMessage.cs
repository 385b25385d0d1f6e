namespace StrokeWatch.Outputs.Mqtt;

/// <summary>A message for the broker.</summary>
/// <param name="Topic">Its topic.</param>
/// <param name="Payload">What it holds.</param>
/// <param name="Confirmed">Whether the broker must confirm it (QoS 1); else it may be lost (QoS 0).</param>
/// <param name="Retained">Whether the broker keeps it for those who come later.</param>
internal readonly record struct MqttMessage(string Topic, byte[] Payload, bool Confirmed, bool Retained);
