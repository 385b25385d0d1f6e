namespace StrokeWatch.Outputs.Mqtt;

/// <summary>A broker that cannot be reached, does not answer or does not let us in.</summary>
/// <param name="lasting">Whether somebody must put something right before it can get better.</param>
/// <param name="words">What is wrong, what becomes of the alarms, what to do.</param>
internal sealed class MqttTroubleException(bool lasting, string words) : Exception(words)
{
    /// <summary>Gets whether somebody must put something right before it can get better.</summary>
    public bool Lasting { get; } = lasting;
}
