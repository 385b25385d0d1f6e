using System.Buffers.Binary;
using System.Text;
using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Sensors.Frames;

/// <summary>The sensor's side of the framed protocol: it numbers the frames, quantises m/s² into counts, and adds the check sum.</summary>
/// <param name="pattern">Kind (which tells the version), sensors, axes, format, rate, scale, rail and number of the start; its other fields are not looked at.</param>
internal sealed class FrameEncoder(FrameHead pattern)
{
    private ushort sequence;

    /// <summary>Gets or sets the running number of the next sample.</summary>
    public ulong Counter { get; set; }

    /// <summary>Gets the most samples that a frame can hold.</summary>
    public int MaxSamples => (FrameHead.MaxLength - pattern.HeadLength - FrameHead.TailSize) / pattern.SampleBytes;

    /// <summary>
    /// Writes a frame of samples, one span a channel in m/s² and the supply's voltage in volts where the pattern takes it, by <paramref name="block"/> from <paramref name="offset"/> on, and gives its
    /// length in bytes. Values beyond the rail are held at the rail, and the frame says so.
    /// </summary>
    public int Samples(Span<byte> frame, SampleBlock block, int offset, int count, ulong clock)
    {
        ArgumentOutOfRangeException.ThrowIfGreaterThan(count, MaxSamples);
        var axes = FrameAxes.Count(pattern.Axes);
        var channels = pattern.Sensors * axes;
        var size = FrameHead.BytesOf(pattern.Format);
        var clipped = 0;
        for (var channel = 0; channel < channels; channel++)
        {
            var values = block[channel].Slice(offset, count);
            for (var i = 0; i < count; i++)
            {
                var raw = values[i] / pattern.Scale;
                if (Math.Abs(raw) >= pattern.Rail)
                {
                    clipped |= 1 << channel / axes;
                    raw = Math.CopySign(pattern.Rail, raw);
                }

                Put(frame[(pattern.HeadLength + (i * pattern.SampleBytes) + (channel * size))..], raw);
            }
        }

        if (pattern.TakesSupply)
        {
            Supply(frame[(pattern.HeadLength + (channels * size))..], block.Supply.Slice(offset, count));
        }

        var length = Finish(frame, pattern.TakesSupply ? FrameKind.SupplySamples : pattern.Several ? FrameKind.SeveralSamples : FrameKind.Samples, clipped, count * pattern.SampleBytes, clock);
        Counter += (ulong)count;
        return length;
    }

    /// <summary>Writes an announcement and gives its length in bytes; the text is cut at 64 bytes.</summary>
    public int Announcement(Span<byte> frame, string firmware, ulong clock)
    {
        var text = frame.Slice(pattern.HeadLength, FrameHead.MaxText);
        Encoding.UTF8.GetEncoder().Convert(firmware, text, flush: true, out _, out var bytes, out _);
        return Finish(frame, pattern.TakesSupply ? FrameKind.SupplyAnnouncement : pattern.Several ? FrameKind.SeveralAnnouncement : FrameKind.Announcement, 0, bytes, clock);
    }

    /// <summary>Writes head and check sum around a payload that is in its place already, and gives the frame's length.</summary>
    public static int Seal(Span<byte> frame, in FrameHead head)
    {
        head.Write(frame);
        var body = head.Length - FrameHead.TailSize;
        BinaryPrimitives.WriteUInt16LittleEndian(frame[body..], Crc16.Of(frame[..body]));
        return head.Length;
    }

    private void Supply(Span<byte> at, ReadOnlySpan<double> volts)
    {
        for (var i = 0; i < volts.Length; i++)
        {
            Put(at[(i * pattern.SampleBytes)..], Math.Clamp(volts[i] / pattern.SupplyScale, -(double)pattern.SupplyRail, pattern.SupplyRail));
        }
    }

    private int Finish(Span<byte> frame, FrameKind kind, int clipped, int payload, ulong clock) => Seal(frame, pattern with
    {
        Kind = kind,
        Flags = clipped != 0 && !pattern.Several ? FrameFlags.Clipped : FrameFlags.None,
        ClippedSensors = (byte)(pattern.Several ? clipped : 0),
        Length = (ushort)(pattern.HeadLength + payload + FrameHead.TailSize),
        Sequence = sequence++,
        Clock = clock,
        Counter = Counter,
    });

    private void Put(Span<byte> at, double raw)
    {
        switch (pattern.Format)
        {
            case SampleFormat.Int16:
                BinaryPrimitives.WriteInt16LittleEndian(at, (short)Math.Clamp(Math.Round(raw), short.MinValue, short.MaxValue));
                break;
            case SampleFormat.Int24:
                var value = (int)Math.Clamp(Math.Round(raw), -8388608, 8388607);
                at[0] = (byte)value;
                at[1] = (byte)(value >> 8);
                at[2] = (byte)(value >> 16);
                break;
            default:
                BinaryPrimitives.WriteSingleLittleEndian(at, (float)raw);
                break;
        }
    }
}
