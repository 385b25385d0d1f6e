using StrokeWatch.Assessment;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Outputs.Forwarding;

namespace StrokeWatch.Outputs.Mqtt.Sparkplug;

/// <summary>Sparkplug B 3.0: the program is an edge node, its feeder the one device.</summary>
/// <remarks>Data goes at QoS 0, as the specification demands; what must not be lost counts as sent once the broker has answered a ping behind it on the same connection.</remarks>
internal sealed class SparkplugProfile(MqttOptions options, string feeder) : IMqttProfile
{
    /// <summary>The device's name.</summary>
    public const string Device = "feeder";

    private const string Journal = "alarm_journal";
    private const string Rebirth = "Node Control/Rebirth";

    private readonly Dictionary<AlarmKind, (DateTimeOffset At, SparkplugMetric[] Metrics)> alarms = [];
    private (DateTimeOffset At, SparkplugMetric[] Metrics)? stroke;
    private MqttMessage will;
    private byte connection;
    private byte next;
    private long waiting;
    private bool supplied;

    /// <inheritdoc/>
    public IReadOnlyList<(string Table, string Place, bool FromNow)> Tables { get; } = [(Journal, "sparkplug " + Journal, true)];

    /// <inheritdoc/>
    public string? Commands => Topic("NCMD");

    /// <inheritdoc/>
    public string? HostState => options.PrimaryHost is { } host ? $"spBv1.0/STATE/{host}" : null;

    /// <inheritdoc/>
    public bool ByPing => true;

    /// <inheritdoc/>
    public MqttMessage Will(long connection, DateTimeOffset at)
    {
        this.connection = (byte)connection;
        return will = new(Topic("NDEATH"), SparkplugPayload.Write(at, null, [(BdSeq, at)], birth: false), Confirmed: true, Retained: false);
    }

    /// <inheritdoc/>
    public IReadOnlyList<MqttMessage> Born(DateTimeOffset at, long held)
    {
        (next, waiting) = (0, held);
        return
        [
            Node("NBIRTH", at, [BdSeq, new(Rebirth, SparkplugType.Boolean, false), new("Properties/Program", SparkplugType.String, "StrokeWatch"), new("Properties/Feeder", SparkplugType.String, feeder), Held(held)], birth: true),
            new(
                Topic("DBIRTH") + "/" + Device,
                SparkplugPayload.Write(
                    at, next++,
                    [
                        .. (stroke?.Metrics ?? Stroke(default, null)).Select(metric => (metric, stroke?.At ?? at)),
                        .. supplied ? [] : Supply(null).Select(metric => (metric, at)),
                        .. Enum.GetValues<AlarmKind>().SelectMany(kind => alarms.TryGetValue(kind, out var last) ? last.Metrics.Select(metric => (metric, last.At)) : Alarm(kind, null).Select(metric => (metric, at))),
                    ],
                    birth: true),
                Confirmed: false, Retained: false),
        ];
    }

    /// <inheritdoc/>
    public MqttMessage Beat(DateTimeOffset at, long held)
    {
        waiting = held;
        return Node("NDATA", at, [Held(held)], birth: false);
    }

    /// <inheritdoc/>
    public MqttMessage Stroke(DateTimeOffset at, in WindowReading reading, Verdict verdict, SupplyNow? supply = null)
    {
        // Once a voltage was read its metrics come each time: a last value must not stand where there is none any more.
        supplied |= supply is { Captured: true };
        stroke = (at, supplied ? [.. Stroke(reading, verdict), .. Supply(supply)] : Stroke(reading, verdict));
        return Data(at, stroke.Value.Metrics, at);
    }

    /// <inheritdoc/>
    public MqttMessage Row(string table, WaitingRow row, DateTimeOffset at)
    {
        var values = row.Values.ToDictionary();
        var taken = DateTimeOffset.FromUnixTimeMilliseconds(row.UtcMs);
        if (!AlarmId.TryParse(values.GetValueOrDefault("alarm") as string ?? "", out var id))
        {
            // A word of a later version: the number of the message must still not be missing.
            return Beat(at, waiting);
        }

        var metrics = Alarm(id.Kind, (row, values, id));
        alarms[id.Kind] = (taken, metrics);
        return Data(at, metrics, taken);
    }

    /// <inheritdoc/>
    public MqttMessage? Leaving(DateTimeOffset at) => options.Old ? will : null;

    /// <inheritdoc/>
    public bool Asks(ReadOnlySpan<byte> payload) => SparkplugPayload.IsTrue(payload, Rebirth);

    private SparkplugMetric BdSeq => new("bdSeq", SparkplugType.Int64, (long)connection);

    private static SparkplugMetric Held(long held) => new("Outbox/alarms_held", SparkplugType.Int64, held);

    private static SparkplugMetric[] Stroke(in WindowReading reading, Verdict? verdict) =>
    [
        new("Stroke/pp", SparkplugType.Double, reading.StrokeMetres * 1e3, "mm"),
        new("Stroke/uncertainty", SparkplugType.Double, reading.UncertaintyMetres * 1e3, "mm"),
        new("Stroke/frequency", SparkplugType.Double, reading.FrequencyHz, "Hz"),
        new("Stroke/verdict", SparkplugType.String, verdict is { } known ? Names.Of(known) : null),
        new("Stroke/quality", SparkplugType.String, verdict is null ? null : Names.Of(reading.Quality)),
        new("Stroke/motion", SparkplugType.String, verdict is null ? null : Names.Of(reading.Motion)),
        new("Stroke/strike", SparkplugType.Boolean, verdict is null ? null : reading.Strike),
        new("Stroke/reason", SparkplugType.String, reading.Reason),
    ];

    private static SparkplugMetric[] Supply(SupplyNow? supply) =>
    [
        new("Supply/rms", SparkplugType.Double, supply?.Reading.RmsVolts, "V"),
        new("Supply/mains", SparkplugType.Double, supply?.Reading.MainsVolts, "V"),
        new("Supply/phase", SparkplugType.Double, supply?.Reading.PhaseDegrees, "deg"),
        new("Supply/reason", SparkplugType.String, supply?.Reason),
        new("Stroke/full_voltage_pp", SparkplugType.Double, supply?.FullStroke * 1e3, "mm"),
    ];

    private static SparkplugMetric[] Alarm(AlarmKind kind, (WaitingRow Row, Dictionary<string, object> Values, AlarmId Id)? step)
    {
        var name = $"Alarms/{Names.Of(kind)}/";
        string? Word(string key) => step?.Values.GetValueOrDefault(key) as string;
        return
        [
            new(name + "stands", SparkplugType.Boolean, step is null ? null : Word("state_to") is "unacknowledged" or "acknowledged"),
            new(name + "state", SparkplugType.String, Word("state_to")),
            new(name + "act", SparkplugType.String, Word("act")),
            new(name + "alarm", SparkplugType.String, Word("alarm")),
            new(name + "by", SparkplugType.String, Word("by")),
            new(name + "words", SparkplugType.String, Word("words")),
            new(name + "id", SparkplugType.String, step is { } known ? StepJson.Id(known.Row) : null),
        ];
    }

    private string Topic(string kind) => $"spBv1.0/{options.Group}/{kind}/{options.Topic}";

    private MqttMessage Node(string kind, DateTimeOffset at, SparkplugMetric[] metrics, bool birth) =>
        new(Topic(kind), SparkplugPayload.Write(at, next++, metrics.Select(metric => (metric, at)), birth), Confirmed: false, Retained: false);

    private MqttMessage Data(DateTimeOffset at, SparkplugMetric[] metrics, DateTimeOffset taken) =>
        new(Topic("DDATA") + "/" + Device, SparkplugPayload.Write(at, next++, metrics.Select(metric => (metric, taken)), birth: false), Confirmed: false, Retained: false);
}
