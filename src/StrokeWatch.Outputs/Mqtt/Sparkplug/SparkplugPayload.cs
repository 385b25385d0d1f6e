using Google.Protobuf;

namespace StrokeWatch.Outputs.Mqtt.Sparkplug;

/// <summary>Payloads in the wire format of protocol buffers, written field by field: the few messages used need no generated code.</summary>
/// <remarks>Numbers of fields: sparkplug_b.proto of the Eclipse Sparkplug specification 3.0, section 6.4.</remarks>
internal static class SparkplugPayload
{
    private const int Timestamp = 1, Metrics = 2, Sequence = 3;
    private const int Name = 1, MetricTimestamp = 3, Datatype = 4, IsNull = 7, Properties = 9, Long = 11, Double = 13, Boolean = 14, Text = 15;
    private const int Keys = 1, Values = 2, PropertyType = 1, PropertyText = 8;

    /// <summary>Writes a payload.</summary>
    /// <param name="at">When it is sent.</param>
    /// <param name="sequence">Its number, 0 to 255; null for a death certificate.</param>
    /// <param name="metrics">The metrics with the instants their values are of.</param>
    /// <param name="birth">Whether units are said.</param>
    public static byte[] Write(DateTimeOffset at, byte? sequence, IEnumerable<(SparkplugMetric Metric, DateTimeOffset At)> metrics, bool birth) => Message(output =>
    {
        Whole(output, Timestamp, at.ToUnixTimeMilliseconds());
        foreach (var (metric, taken) in metrics)
        {
            Inner(output, Metrics, Message(inner => Write(inner, metric, taken, birth)));
        }

        if (sequence is { } number)
        {
            Whole(output, Sequence, number);
        }
    });

    /// <summary>Says whether a command sets a metric of a name to true; what cannot be read does not.</summary>
    public static bool IsTrue(ReadOnlySpan<byte> payload, string name)
    {
        try
        {
            var input = new CodedInputStream(payload.ToArray());
            while (input.ReadTag() is var tag && tag != 0)
            {
                if (WireFormat.GetTagFieldNumber(tag) != Metrics || WireFormat.GetTagWireType(tag) != WireFormat.WireType.LengthDelimited)
                {
                    input.SkipLastField();
                }
                else if (Read(new CodedInputStream(input.ReadBytes().ToByteArray())) is var (found, value) && found == name && value)
                {
                    return true;
                }
            }
        }
        catch (Exception e) when (e is InvalidProtocolBufferException or IOException)
        {
            // Whoever sent this meant something else.
        }

        return false;
    }

    private static (string Name, bool Value) Read(CodedInputStream input)
    {
        var (name, value) = ("", false);
        while (input.ReadTag() is var tag && tag != 0)
        {
            switch ((WireFormat.GetTagFieldNumber(tag), WireFormat.GetTagWireType(tag)))
            {
                case (Name, WireFormat.WireType.LengthDelimited):
                    name = input.ReadString();
                    break;
                case (Boolean, WireFormat.WireType.Varint):
                    value = input.ReadBool();
                    break;
                default:
                    input.SkipLastField();
                    break;
            }
        }

        return (name, value);
    }

    private static void Write(CodedOutputStream output, in SparkplugMetric metric, DateTimeOffset at, bool birth)
    {
        output.WriteTag(Name, WireFormat.WireType.LengthDelimited);
        output.WriteString(metric.Name);
        Whole(output, MetricTimestamp, at.ToUnixTimeMilliseconds());
        Whole(output, Datatype, (long)metric.Type);
        if (birth && metric.Unit is { } unit)
        {
            Inner(output, Properties, Message(set =>
            {
                set.WriteTag(Keys, WireFormat.WireType.LengthDelimited);
                set.WriteString("engUnit");
                Inner(set, Values, Message(value =>
                {
                    Whole(value, PropertyType, (long)SparkplugType.String);
                    value.WriteTag(PropertyText, WireFormat.WireType.LengthDelimited);
                    value.WriteString(unit);
                }));
            }));
        }

        switch (metric.Value)
        {
            case long whole:
                Whole(output, Long, whole);
                break;
            case double number when double.IsFinite(number):
                output.WriteTag(Double, WireFormat.WireType.Fixed64);
                output.WriteDouble(number);
                break;
            case bool flag:
                output.WriteTag(Boolean, WireFormat.WireType.Varint);
                output.WriteBool(flag);
                break;
            case string text:
                output.WriteTag(Text, WireFormat.WireType.LengthDelimited);
                output.WriteString(text);
                break;
            default:
                output.WriteTag(IsNull, WireFormat.WireType.Varint);
                output.WriteBool(true);
                break;
        }
    }

    private static void Whole(CodedOutputStream output, int field, long value)
    {
        output.WriteTag(field, WireFormat.WireType.Varint);
        output.WriteUInt64(unchecked((ulong)value));
    }

    private static void Inner(CodedOutputStream output, int field, byte[] message)
    {
        output.WriteTag(field, WireFormat.WireType.LengthDelimited);
        output.WriteBytes(ByteString.CopyFrom(message));
    }

    private static byte[] Message(Action<CodedOutputStream> write)
    {
        using var memory = new MemoryStream();
        using (var output = new CodedOutputStream(memory, leaveOpen: true))
        {
            write(output);
        }

        return memory.ToArray();
    }
}
