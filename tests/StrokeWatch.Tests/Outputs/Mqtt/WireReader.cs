using System.Buffers.Binary;
using System.Text;

namespace StrokeWatch.Tests.Outputs.Mqtt;

/// <summary>Reads the wire format of protocol buffers by its own description (protobuf.dev, "Encoding"), with nothing of the library that writes it.</summary>
internal static class WireReader
{
    /// <summary>Gives the fields of a message in order: whole numbers as ulong, eight bytes as double, the rest as bytes.</summary>
    public static List<(int Field, object Value)> Fields(ReadOnlySpan<byte> message)
    {
        var fields = new List<(int, object)>();
        while (message.Length > 0)
        {
            var tag = Varint(ref message);
            switch (tag & 7)
            {
                case 0:
                    fields.Add(((int)(tag >> 3), Varint(ref message)));
                    break;
                case 1:
                    fields.Add(((int)(tag >> 3), BinaryPrimitives.ReadDoubleLittleEndian(message)));
                    message = message[8..];
                    break;
                case 2:
                    var length = (int)Varint(ref message);
                    fields.Add(((int)(tag >> 3), message[..length].ToArray()));
                    message = message[length..];
                    break;
                default:
                    throw new FormatException($"wire type {tag & 7}");
            }
        }

        return fields;
    }

    /// <summary>Reads a Sparkplug payload: fields 1 timestamp, 2 metrics, 3 seq; of a metric 1 name, 3 timestamp, 4 datatype, 7 is_null, 9 properties, 11 long, 13 double, 14 boolean, 15 string.</summary>
    public static SparkplugMessage Payload(ReadOnlySpan<byte> payload)
    {
        var fields = Fields(payload);
        return new(
            Whole(fields, 1), Whole(fields, 3),
            [.. fields.Where(field => field.Field == 2).Select(field => Metric((byte[])field.Value))]);
    }

    /// <summary>Writes a command that sets one metric to true, byte by byte.</summary>
    public static byte[] Command(string name, bool value)
    {
        var text = Encoding.UTF8.GetBytes(name);
        byte[] metric = [0x0A, (byte)text.Length, .. text, 0x20, 11, 0x70, value ? (byte)1 : (byte)0];
        return [0x08, 0x01, 0x12, (byte)metric.Length, .. metric];
    }

    private static SparkplugMetricRead Metric(byte[] metric)
    {
        var fields = Fields(metric);
        var properties = fields.Where(field => field.Field == 9).Select(field => Fields((byte[])field.Value)).FirstOrDefault();
        var unit = properties is null ? null : Text(Fields((byte[])properties.Single(field => field.Field == 2).Value), 8);
        object? value = fields.FirstOrDefault(field => field.Field is 11 or 13 or 14 or 15) switch
        {
            (11, ulong whole) => unchecked((long)whole),
            (13, double number) => number,
            (14, ulong flag) => flag == 1,
            (15, byte[] text) => Encoding.UTF8.GetString(text),
            _ => null,
        };
        return new(Text(fields, 1)!, (int)Whole(fields, 4)!.Value, value, Whole(fields, 7) == 1, unit, Whole(fields, 3));
    }

    private static ulong? Whole(List<(int Field, object Value)> fields, int field) => fields.Where(one => one.Field == field).Select(one => (ulong?)one.Value).FirstOrDefault();

    private static string? Text(List<(int Field, object Value)> fields, int field) =>
        fields.Where(one => one.Field == field).Select(one => Encoding.UTF8.GetString((byte[])one.Value)).FirstOrDefault();

    private static ulong Varint(ref ReadOnlySpan<byte> bytes)
    {
        var (value, shift) = (0UL, 0);
        while (true)
        {
            var next = bytes[0];
            bytes = bytes[1..];
            value |= (ulong)(next & 0x7F) << shift;
            shift += 7;
            if (next < 0x80)
            {
                return value;
            }
        }
    }
}

/// <summary>A payload as read.</summary>
internal sealed record SparkplugMessage(ulong? Timestamp, ulong? Seq, List<SparkplugMetricRead> Metrics)
{
    public SparkplugMetricRead this[string name] => Metrics.Single(metric => metric.Name == name);
}

/// <summary>A metric as read.</summary>
internal sealed record SparkplugMetricRead(string Name, int Type, object? Value, bool IsNull, string? Unit, ulong? Timestamp);
