using System.Buffers.Binary;
using System.Text;
using StrokeWatch.Samples.Captures;

namespace StrokeWatch.Samples.Wav;

/// <summary>When a WAV file was recorded: <c>ICRD</c> of a LIST/INFO chunk (Microsoft and IBM, Multimedia Programming Interface 1.0, 1991) or the origination date of a <c>bext</c> chunk (EBU Tech 3285).</summary>
internal static class WavDate
{
    private const int MostBytes = 1 << 16;
    private const int OriginationDate = 320;
    private const int OriginationEnd = 338;

    /// <summary>Reads the date from a LIST chunk; null where it holds none.</summary>
    public static DateTimeOffset? FromList(Stream stream, uint size)
    {
        var content = Content(stream, size);
        if (!content.AsSpan().StartsWith("INFO"u8))
        {
            return null;
        }

        for (var at = 4; at + 8 <= content.Length;)
        {
            var length = (int)Math.Min(BinaryPrimitives.ReadUInt32LittleEndian(content.AsSpan(at + 4)), (uint)(content.Length - at - 8));
            if (content.AsSpan(at, 4).SequenceEqual("ICRD"u8))
            {
                return RecordedDate.Parse(Encoding.Latin1.GetString(content, at + 8, length).TrimEnd('\0'));
            }

            at += 8 + length + (length & 1);
        }

        return null;
    }

    /// <summary>Reads the date from a bext chunk; null where it holds none. The standard's time is local without an offset; it is taken as UTC.</summary>
    public static DateTimeOffset? FromBroadcast(Stream stream, uint size)
    {
        var content = Content(stream, size);
        if (content.Length < OriginationEnd)
        {
            return null;
        }

        // yyyy-mm-dd and hh-mm-ss, each with any separator.
        var text = Encoding.Latin1.GetString(content, OriginationDate, OriginationEnd - OriginationDate).ToCharArray();
        (text[4], text[7], text[12], text[15]) = ('-', '-', ':', ':');
        return RecordedDate.Parse($"{new string(text, 0, 10)}T{new string(text, 10, 8)}");
    }

    /// <summary>Writes the content of a LIST chunk with a date.</summary>
    public static byte[] List(DateTimeOffset date)
    {
        var text = RecordedDate.Text(date) + "\0";
        var content = new byte[4 + 8 + text.Length + (text.Length & 1)];
        "INFOICRD"u8.CopyTo(content);
        BinaryPrimitives.WriteUInt32LittleEndian(content.AsSpan(8), (uint)text.Length);
        Encoding.ASCII.GetBytes(text, content.AsSpan(12));
        return content;
    }

    private static byte[] Content(Stream stream, uint size)
    {
        var content = new byte[Math.Min(Math.Min(size, MostBytes), Math.Max(0, stream.Length - stream.Position))];
        stream.ReadAtLeast(content, content.Length, throwOnEndOfStream: false);
        return content;
    }
}
