using System.Buffers.Binary;
using System.Runtime.InteropServices;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Samples.Wav;

/// <summary>
/// Writes 32-bit float WAV in g; above 4 GiB it becomes RF64 (EBU Tech 3306: a reserved JUNK chunk turns into ds64). The exact rate, the axes and
/// the gaps, which WAV cannot hold, go into <c>swcp</c> chunks of our own. Until it is disposed the file says that it is still being written.
/// </summary>
public sealed class WavCaptureWriter : ICaptureWriter
{
    /// <summary>The size from which the 32-bit fields of RIFF no longer suffice.</summary>
    private const long Limit32 = uint.MaxValue;

    private const int Ds64Bytes = 28;

    private readonly Stream stream;
    private readonly WavNotes notes;
    private readonly int channels;
    private readonly bool supply;
    private readonly long wideFrom;
    private readonly float[] buffer;
    private readonly long begin;
    private long dataStart;
    private long frames;
    private long lost;
    private bool closed;

    /// <summary>Begins a file, replacing one that is there.</summary>
    /// <param name="path">The file to write.</param>
    /// <param name="axes">The axis of each channel: 1 to 3 of them, or up to 64 of several sensors.</param>
    /// <param name="rateHz">The rate in Hz, above 0.</param>
    /// <param name="fullScaleG">The sensor's full scale in g, if known.</param>
    /// <param name="places">The place of each channel's sensor; none where there is one sensor.</param>
    /// <param name="recorded">When the first sample is taken; null where it is not to be said.</param>
    /// <param name="supply">Whether the blocks' supply voltage is written too, as the last channel.</param>
    public WavCaptureWriter(string path, IReadOnlyList<Axis> axes, double rateHz, double? fullScaleG = null, IReadOnlyList<SensorPlace>? places = null, DateTimeOffset? recorded = null, bool supply = false)
        : this(new FileStream(path, FileMode.Create, FileAccess.ReadWrite, FileShare.Read, 1 << 16), axes, rateHz, fullScaleG, places, recorded, supply)
    {
    }

    /// <summary>Begins a file in a stream that can seek; the stream is closed with the writer.</summary>
    public WavCaptureWriter(Stream stream, IReadOnlyList<Axis> axes, double rateHz, double? fullScaleG = null, IReadOnlyList<SensorPlace>? places = null, DateTimeOffset? recorded = null, bool supply = false)
        : this(stream, axes, rateHz, fullScaleG, Limit32, places, recorded, supply)
    {
    }

    /// <summary>Begins a file that becomes RF64 from a given size.</summary>
    internal WavCaptureWriter(Stream stream, IReadOnlyList<Axis> axes, double rateHz, double? fullScaleG, long wideFrom, IReadOnlyList<SensorPlace>? places = null, DateTimeOffset? recorded = null, bool supply = false)
    {
        ChannelNames.Check(axes, places);
        if (!(double.IsFinite(rateHz) && rateHz > 0))
        {
            throw new ArgumentOutOfRangeException(nameof(rateHz), rateHz, "A rate is a number above 0.");
        }

        if (!stream.CanSeek)
        {
            throw new ArgumentException("A WAV file is completed at its start, so the stream must be able to seek.", nameof(stream));
        }

        this.stream = stream;
        this.wideFrom = wideFrom;
        (channels, this.supply) = (axes.Count, supply);
        notes = new WavNotes { RateHz = rateHz, Unit = AccelerationUnit.G, Axes = [.. axes], Places = places, FullScaleG = fullScaleG, Supply = supply ? channels + 1 : null };
        buffer = new float[4096 * Written];
        begin = stream.Position;
        WriteHead(rateHz, recorded);
    }

    /// <summary>Gets the channels of the file: the axes, and the supply's after them.</summary>
    private int Written => channels + (supply ? 1 : 0);

    /// <inheritdoc/>
    public void Write(SampleBlock block)
    {
        ObjectDisposedException.ThrowIf(closed, this);
        ArgumentOutOfRangeException.ThrowIfNotEqual(block.Channels, channels, nameof(block));
        if (block.GapBefore)
        {
            lost += block.MissingBefore;
            NoteGap();
        }

        var held = 0;
        for (var i = 0; i < block.Count; i++)
        {
            var finite = true;
            for (var c = 0; c < channels; c++)
            {
                var value = (float)(block[c][i] * (1 / Gravity.Standard));
                buffer[held + c] = value;
                finite &= float.IsFinite(value);
            }

            if (!finite)
            {
                lost++;
                continue;
            }

            if (lost > 0)
            {
                NoteGap();
            }

            if (supply)
            {
                // A sample without its voltage is no sample lost: it is written as no number.
                buffer[held + channels] = block.HasSupply ? (float)block.Supply[i] : float.NaN;
            }

            held += Written;
            frames++;
            if (held == buffer.Length)
            {
                Put(held);
                held = 0;
            }
        }

        Put(held);
    }

    /// <inheritdoc/>
    public void Flush() => stream.Flush();

    /// <inheritdoc/>
    public void Dispose()
    {
        if (closed)
        {
            return;
        }

        closed = true;
        var dataEnd = stream.Position;
        if (notes.Gaps.Count > 0)
        {
            WriteChunk("swcp"u8, notes.Tail());
        }

        WriteSizes(dataEnd - dataStart, stream.Position - begin - 8);
        stream.Dispose();
    }

    private void NoteGap()
    {
        if (frames > 0)
        {
            if (notes.Gaps.Count > 0 && notes.Gaps[^1].Index == frames)
            {
                notes.Gaps[^1] = (frames, notes.Gaps[^1].Missing + lost);
            }
            else
            {
                notes.Gaps.Add((frames, lost));
            }
        }

        lost = 0;
    }

    private void Put(int count)
    {
        var bytes = MemoryMarshal.AsBytes(buffer.AsSpan(0, count));
        if (!BitConverter.IsLittleEndian)
        {
            var words = MemoryMarshal.Cast<byte, uint>(bytes);
            BinaryPrimitives.ReverseEndianness(words, words);
        }

        stream.Write(bytes);
    }

    private void WriteHead(double rateHz, DateTimeOffset? recorded)
    {
        Span<byte> head = stackalloc byte[12 + 8 + Ds64Bytes];
        "RIFF"u8.CopyTo(head);
        BinaryPrimitives.WriteUInt32LittleEndian(head[4..], uint.MaxValue);
        "WAVEJUNK"u8.CopyTo(head[8..]);
        BinaryPrimitives.WriteUInt32LittleEndian(head[16..], Ds64Bytes);
        head[20..].Clear();
        stream.Write(head);

        Span<byte> format = stackalloc byte[18];
        format.Clear();
        var rate = (uint)Math.Clamp(Math.Round(rateHz), 1, uint.MaxValue / (4.0 * Written));
        BinaryPrimitives.WriteUInt16LittleEndian(format, 3);
        BinaryPrimitives.WriteUInt16LittleEndian(format[2..], (ushort)Written);
        BinaryPrimitives.WriteUInt32LittleEndian(format[4..], rate);
        BinaryPrimitives.WriteUInt32LittleEndian(format[8..], rate * 4 * (uint)Written);
        BinaryPrimitives.WriteUInt16LittleEndian(format[12..], (ushort)(4 * Written));
        BinaryPrimitives.WriteUInt16LittleEndian(format[14..], 32);
        WriteChunk("fmt "u8, format);
        WriteChunk("swcp"u8, notes.Head());
        if (recorded is { } date)
        {
            WriteChunk("LIST"u8, WavDate.List(date));
        }

        Span<byte> data = stackalloc byte[8];
        "data"u8.CopyTo(data);
        BinaryPrimitives.WriteUInt32LittleEndian(data[4..], uint.MaxValue);
        stream.Write(data);
        dataStart = stream.Position;
    }

    private void WriteChunk(ReadOnlySpan<byte> id, ReadOnlySpan<byte> content)
    {
        Span<byte> head = stackalloc byte[8];
        id.CopyTo(head);
        BinaryPrimitives.WriteUInt32LittleEndian(head[4..], (uint)content.Length);
        stream.Write(head);
        stream.Write(content);
        if (content.Length % 2 == 1)
        {
            stream.WriteByte(0);
        }
    }

    private void WriteSizes(long dataBytes, long riffBytes)
    {
        var wide = riffBytes >= wideFrom;
        Span<byte> head = stackalloc byte[12 + 8 + Ds64Bytes];
        head.Clear();
        (wide ? "RF64"u8 : "RIFF"u8).CopyTo(head);
        BinaryPrimitives.WriteUInt32LittleEndian(head[4..], wide ? uint.MaxValue : (uint)riffBytes);
        "WAVE"u8.CopyTo(head[8..]);
        (wide ? "ds64"u8 : "JUNK"u8).CopyTo(head[12..]);
        BinaryPrimitives.WriteUInt32LittleEndian(head[16..], Ds64Bytes);
        if (wide)
        {
            BinaryPrimitives.WriteInt64LittleEndian(head[20..], riffBytes);
            BinaryPrimitives.WriteInt64LittleEndian(head[28..], dataBytes);
            BinaryPrimitives.WriteInt64LittleEndian(head[36..], frames);
        }

        stream.Position = begin;
        stream.Write(head);
        Span<byte> size = stackalloc byte[4];
        BinaryPrimitives.WriteUInt32LittleEndian(size, wide ? uint.MaxValue : (uint)dataBytes);
        stream.Position = dataStart - 4;
        stream.Write(size);
        stream.Flush();
    }
}
