using StrokeWatch.Assessment.Reports;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Outputs.Forwarding;

namespace StrokeWatch.Outputs.Mqtt;

/// <summary>Plain JSON: status (retained, with a will), stroke, alarm raised or cleared, and each step of an alarm's life.</summary>
internal sealed class PlainProfile(MqttOptions options, string feeder) : IMqttProfile
{
    private const string Alarms = "alarm";
    private const string Journal = "alarm_journal";

    /// <inheritdoc/>
    public IReadOnlyList<(string Table, string Place, bool FromNow)> Tables { get; } = [(Alarms, Alarms, false), (Journal, Journal, true)];

    /// <inheritdoc/>
    public string? Commands => null;

    /// <inheritdoc/>
    public bool ByPing => false;

    /// <inheritdoc/>
    public MqttMessage Will(long connection, DateTimeOffset at) => Status(MqttJson.Status(feeder, online: false, null, null, "the connection to the program was lost"));

    /// <inheritdoc/>
    public IReadOnlyList<MqttMessage> Born(DateTimeOffset at, long held) => [];

    /// <inheritdoc/>
    public MqttMessage Beat(DateTimeOffset at, long held) => Status(MqttJson.Status(feeder, online: true, at, held, null));

    /// <inheritdoc/>
    public MqttMessage Stroke(DateTimeOffset at, in WindowReading reading, Verdict verdict, SupplyNow? supply = null) =>
        new(options.TopicOf("stroke"), MqttJson.Stroke(feeder, at, reading, verdict, supply), Confirmed: false, Retained: false);

    /// <inheritdoc/>
    public MqttMessage Row(string table, WaitingRow row, DateTimeOffset at) => table == Alarms
        ? new(options.TopicOf("alarm"), MqttJson.Alarm(row), Confirmed: true, Retained: false)
        : new(options.TopicOf("alarm-step"), StepJson.Write(row), Confirmed: true, Retained: false);

    /// <inheritdoc/>
    public MqttMessage? Leaving(DateTimeOffset at) => Status(MqttJson.Status(feeder, online: false, at, null, "the program was stopped"));

    /// <inheritdoc/>
    public bool Asks(ReadOnlySpan<byte> payload) => false;

    private MqttMessage Status(byte[] payload) => new(options.TopicOf("status"), payload, Confirmed: true, Retained: true);
}
