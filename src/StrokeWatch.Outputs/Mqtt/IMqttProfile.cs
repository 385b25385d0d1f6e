using StrokeWatch.Assessment.Reports;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Outputs.Forwarding;

namespace StrokeWatch.Outputs.Mqtt;

/// <summary>Makes the messages of one connection after another; only the forwarder's task uses it.</summary>
internal interface IMqttProfile
{
    /// <summary>Gets the tables of the store whose rows are sent, and the name under which it is noted how far.</summary>
    IReadOnlyList<(string Table, string Place, bool FromNow)> Tables { get; }

    /// <summary>Gets the topic under which others may ask for something; null where there is none.</summary>
    string? Commands { get; }

    /// <summary>Gets the topic under which the host that is waited for says whether it is there; null where nobody is waited for.</summary>
    string? HostState => null;

    /// <summary>Gets whether nothing is confirmed by itself, so that the broker's answer to a ping behind it must do.</summary>
    bool ByPing { get; }

    /// <summary>Gives what the broker is to say when the connection is lost; begins a connection.</summary>
    /// <param name="connection">The connection's number, from 0; rises by one each time and through restarts.</param>
    /// <param name="at">The instant.</param>
    MqttMessage Will(long connection, DateTimeOffset at);

    /// <summary>Gives what is said first, and again when it is asked for.</summary>
    IReadOnlyList<MqttMessage> Born(DateTimeOffset at, long held);

    /// <summary>Gives what is said at each heartbeat.</summary>
    MqttMessage Beat(DateTimeOffset at, long held);

    /// <summary>Gives what is said of the newest window.</summary>
    MqttMessage Stroke(DateTimeOffset at, in WindowReading reading, Verdict verdict, SupplyNow? supply = null);

    /// <summary>Gives what is said of a row.</summary>
    MqttMessage Row(string table, WaitingRow row, DateTimeOffset at);

    /// <summary>Gives what is said before an orderly end; null where the will says it.</summary>
    MqttMessage? Leaving(DateTimeOffset at);

    /// <summary>Says whether a message under <see cref="Commands"/> asks for what is said first.</summary>
    bool Asks(ReadOnlySpan<byte> payload);
}
