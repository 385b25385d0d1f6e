namespace StrokeWatch.Outputs.Mqtt;

/// <summary>How topics and payloads are made.</summary>
public enum MqttProfile
{
    /// <summary>Plain JSON under topics of our own.</summary>
    Plain,

    /// <summary>Sparkplug B 3.0.</summary>
    Sparkplug,
}
