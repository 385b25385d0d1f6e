namespace StrokeWatch.Outputs.Mqtt;

/// <summary>Asks a broker whether it lets us in, under another name than the program's own and without a message.</summary>
public static class MqttProbe
{
    /// <summary>Gives what stands in the way and what to do; null where the broker lets us in.</summary>
    public static string? Trouble(MqttOptions options)
    {
        try
        {
            using var link = MqttLink.Connect(options with { Topic = options.Topic + "/check" }, null, CancellationToken.None).GetAwaiter().GetResult();
            link.Leave(withWill: false, CancellationToken.None).GetAwaiter().GetResult();
            return null;
        }
        catch (MqttTroubleException e)
        {
            return e.Message;
        }
    }
}
