using System.Buffers.Binary;
using StrokeWatch.Samples.Captures;

namespace StrokeWatch.Samples.Wav;

/// <summary>Where the parts of a WAV file lie and how its samples are written.</summary>
internal sealed record WavLayout
{
    /// <summary>The largest metadata chunk that is read.</summary>
    private const int MostNotes = 1 << 24;

    /// <summary>A 32-bit size that says: see elsewhere, or not known yet.</summary>
    private const uint NoSize = uint.MaxValue;

    /// <summary>Gets the number of channels.</summary>
    public int Channels { get; private init; }

    /// <summary>Gets the rate in Hz as the header's whole number.</summary>
    public uint HeaderRate { get; private init; }

    /// <summary>Gets how a sample is written.</summary>
    public WavEncoding Encoding { get; private init; }

    /// <summary>Gets the bytes of one sample of all channels.</summary>
    public int FrameBytes { get; private init; }

    /// <summary>Gets where the samples begin.</summary>
    public long DataStart { get; private init; }

    /// <summary>Gets the whole frames of samples that are there.</summary>
    public long Frames { get; private init; }

    /// <summary>Gets whether the file ends before its stated length, or states none because it is still being written.</summary>
    public bool IsTruncated { get; private init; }

    /// <summary>Gets what our own chunks say.</summary>
    public WavNotes Notes { get; private init; } = new();

    /// <summary>Gets when the file was recorded; null where it does not say.</summary>
    public DateTimeOffset? Recorded { get; private init; }

    /// <summary>Says whether the bytes begin as a WAV file's do.</summary>
    public static bool IsWav(ReadOnlySpan<byte> head) => head.StartsWith("RIFF"u8) || head.StartsWith("RF64"u8) || head.StartsWith("RIFX"u8);

    /// <summary>Reads the chunks up to the end of the file.</summary>
    public static WavLayout Read(CaptureBytes bytes, Stream stream)
    {
        Span<byte> head = stackalloc byte[12];
        if (stream.ReadAtLeast(head, 12, throwOnEndOfStream: false) < 12)
        {
            throw Cut(bytes);
        }

        if (head.StartsWith("RIFX"u8) || !head[8..].SequenceEqual("WAVE"u8))
        {
            throw bytes.Error("is a RIFF file but no little-endian WAVE; convert it to WAV");
        }

        var layout = new WavLayout();
        var notes = new WavNotes();
        ulong? wideData = null;
        DateTimeOffset? recorded = null;
        var found = false;
        while (TryChunk(stream, out var id, out var size))
        {
            var start = stream.Position;
            var length = (long)size;
            switch (id)
            {
                case "fmt " when !found:
                    layout = Format(bytes, stream, layout, size);
                    break;
                case "ds64":
                    wideData = DataSize(bytes, stream, size);
                    break;
                case "swcp" when size <= MostNotes:
                    notes.Read(stream, (int)size);
                    break;
                case "LIST":
                    recorded ??= WavDate.FromList(stream, size);
                    break;
                case "bext":
                    recorded ??= WavDate.FromBroadcast(stream, size);
                    break;
                case "data" when !found:
                    found = true;
                    layout = layout.WithData(bytes, stream, size == NoSize ? wideData ?? 0 : size, out length);
                    break;
                default:
                    break;
            }

            // Chunks begin on even places.
            var next = start + length + (length & 1);
            if (next < start || next >= stream.Length)
            {
                break;
            }

            stream.Position = next;
        }

        return !found ? throw (layout.Channels == 0 ? Cut(bytes) : bytes.Error("has no samples: its data chunk is missing; record it again"))
            : layout with { Notes = notes, Recorded = recorded };
    }

    private static Exception Cut(CaptureBytes bytes) => bytes.Error("is a WAV file cut off within its header; record it again");

    private static bool TryChunk(Stream stream, out string id, out uint size)
    {
        Span<byte> head = stackalloc byte[8];
        var whole = stream.ReadAtLeast(head, 8, throwOnEndOfStream: false) == 8;
        id = System.Text.Encoding.Latin1.GetString(head[..4]);
        size = BinaryPrimitives.ReadUInt32LittleEndian(head[4..]);
        return whole;
    }

    private static ulong DataSize(CaptureBytes bytes, Stream stream, uint size)
    {
        Span<byte> sizes = stackalloc byte[16];
        return size >= 16 && stream.ReadAtLeast(sizes, 16, throwOnEndOfStream: false) == 16
            ? BinaryPrimitives.ReadUInt64LittleEndian(sizes[8..])
            : throw Cut(bytes);
    }

    private static WavLayout Format(CaptureBytes bytes, Stream stream, WavLayout layout, uint size)
    {
        Span<byte> format = stackalloc byte[40];
        format = format[..(int)Math.Min(size, 40)];
        if (size < 16 || stream.ReadAtLeast(format, format.Length, throwOnEndOfStream: false) < format.Length)
        {
            throw Cut(bytes);
        }

        int tag = BinaryPrimitives.ReadUInt16LittleEndian(format);
        int channels = BinaryPrimitives.ReadUInt16LittleEndian(format[2..]);
        int frame = BinaryPrimitives.ReadUInt16LittleEndian(format[12..]);
        int bits = BinaryPrimitives.ReadUInt16LittleEndian(format[14..]);
        if (tag == 0xFFFE && format.Length >= 26)
        {
            // WAVE_FORMAT_EXTENSIBLE: the first two bytes of the sub-format's GUID are the tag.
            tag = BinaryPrimitives.ReadUInt16LittleEndian(format[24..]);
        }

        WavEncoding encoding = (tag, bits) switch
        {
            (1, 16) => WavEncoding.Int16,
            (1, 24) => WavEncoding.Int24,
            (1, 32) => WavEncoding.Int32,
            (3, 32) => WavEncoding.Float32,
            (3, 64) => WavEncoding.Float64,
            _ => throw bytes.Error(FormattableString.Invariant(
                $"holds WAV format {tag} with {bits} bits, which is not read; convert it to PCM of 16, 24 or 32 bits or to 32-bit float")),
        };
        if (channels == 0 || frame != channels * (bits / 8))
        {
            throw bytes.Error(FormattableString.Invariant($"is damaged: its header states {channels} channels in {frame} bytes; record it again"));
        }

        return layout with
        {
            Channels = channels,
            HeaderRate = BinaryPrimitives.ReadUInt32LittleEndian(format[4..]),
            Encoding = encoding,
            FrameBytes = frame,
        };
    }

    private WavLayout WithData(CaptureBytes bytes, Stream stream, ulong stated, out long length)
    {
        if (Channels == 0)
        {
            throw bytes.Error("is damaged: its samples come before their format; record it again");
        }

        var there = Math.Max(0, stream.Length - stream.Position);
        // A recorder that is still writing, or died, leaves 0 or nothing but ones.
        var open = stated is 0 or ulong.MaxValue;
        length = open || stated > (ulong)there ? there : (long)stated;
        return this with
        {
            DataStart = stream.Position,
            Frames = length / FrameBytes,
            IsTruncated = (open && there > 0) || (!open && stated > (ulong)there) || length % FrameBytes != 0,
        };
    }
}
