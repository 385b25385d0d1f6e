namespace StrokeWatch.Outputs.Mqtt;

/// <summary>Which broker messages go to, and how.</summary>
public sealed record MqttOptions
{
    /// <summary>Gets the broker's host name or address.</summary>
    public required string Host { get; init; }

    /// <summary>Gets the broker's port, 1 to 65535; by custom 1883 in clear and 8883 with TLS.</summary>
    public required int Port { get; init; }

    /// <summary>Gets what all topics begin with, without a slash at either end.</summary>
    public string Prefix { get; init; } = "strokewatch";

    /// <summary>Gets the feeder's part of the topics.</summary>
    public required string Topic { get; init; }

    /// <summary>Gets how topics and payloads are made.</summary>
    public MqttProfile Profile { get; init; }

    /// <summary>Gets the group of edge nodes, of Sparkplug alone.</summary>
    public string Group { get; init; } = "strokewatch";

    /// <summary>Gets the id of the primary host application, of Sparkplug alone: nothing is said before it is online, nor while it is offline; null where nobody is waited for.</summary>
    public string? PrimaryHost { get; init; }

    /// <summary>Gets whether the connection is encrypted and the broker's certificate checked.</summary>
    public bool Tls { get; init; }

    /// <summary>Gets the file of certificates in PEM that the broker's must come from; null for those that the system trusts.</summary>
    public string? CaPath { get; init; }

    /// <summary>Gets the user's name; null where the broker asks for none.</summary>
    public string? User { get; init; }

    /// <summary>Gets the file that holds the password; null where there is none.</summary>
    public string? PasswordPath { get; init; }

    /// <summary>Gets whether MQTT 3.1.1 is spoken in place of 5.</summary>
    public bool Old { get; init; }

    /// <summary>Gets how often the status is repeated, confirmed by the broker: only that shows a broker that hangs.</summary>
    public TimeSpan Heartbeat { get; init; } = TimeSpan.FromSeconds(15);

    /// <summary>Gets how long the broker's answer is waited for.</summary>
    public TimeSpan Patience { get; init; } = TimeSpan.FromSeconds(10);

    /// <summary>Gives the full topic of one kind of message.</summary>
    public string TopicOf(string kind) => $"{Prefix}/{Topic}/{kind}";
}
