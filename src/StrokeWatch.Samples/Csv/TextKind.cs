using System.Text;
using StrokeWatch.Samples.Captures;

namespace StrokeWatch.Samples.Csv;

/// <summary>How the bytes of a text capture are to be read: its byte order mark, encoding and line ends.</summary>
/// <param name="Utf16">The two-byte encoding to be turned into UTF-8; null where the bytes are read as they stand.</param>
/// <param name="Skip">The bytes of the byte order mark.</param>
/// <param name="LineEnd">The byte that ends a line.</param>
internal sealed record TextKind(Encoding? Utf16, int Skip, byte LineEnd)
{
    /// <summary>Looks at the first bytes; what is not text throws.</summary>
    public static TextKind Of(ReadOnlySpan<byte> head, CaptureBytes bytes)
    {
        if (head.StartsWith((ReadOnlySpan<byte>)[0xFF, 0xFE]))
        {
            return new(Encoding.Unicode, 2, (byte)'\n');
        }

        if (head.StartsWith((ReadOnlySpan<byte>)[0xFE, 0xFF]))
        {
            return new(Encoding.BigEndianUnicode, 2, (byte)'\n');
        }

        var strange = 0;
        foreach (var b in head)
        {
            strange += b switch
            {
                0 => head.Length,
                < 32 and not ((byte)'\t' or (byte)'\n' or (byte)'\r' or 12 or 26) => 1,
                127 => 1,
                _ => 0,
            };
        }

        if (strange * 50 > head.Length)
        {
            throw bytes.Error("is neither text nor WAV; give a CSV, TSV or WAV capture");
        }

        var oldMac = head.IndexOf((byte)'\n') < 0 && head.IndexOf((byte)'\r') >= 0;
        return new(null, head.StartsWith("\uFEFF"u8) ? 3 : 0, oldMac ? (byte)'\r' : (byte)'\n');
    }

    /// <summary>Opens the lines from the first one.</summary>
    public ByteLines Lines(CaptureBytes bytes)
    {
        var stream = bytes.Open();
        stream.Position = Skip;
        return new ByteLines(Utf16 is null ? stream : Encoding.CreateTranscodingStream(stream, Utf16, Encoding.UTF8), LineEnd);
    }

    /// <summary>Turns a line into text: UTF-8 where it is that, else Latin-1, in which older programs write m/s².</summary>
    public static string Decode(ReadOnlySpan<byte> line) =>
        System.Text.Unicode.Utf8.IsValid(line) ? Encoding.UTF8.GetString(line) : Encoding.Latin1.GetString(line);
}
