using System.Buffers.Binary;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Sources;
using StrokeWatch.Sensors.Frames;

namespace StrokeWatch.Benchmarks.Fuzzing;

/// <summary>The decoder of the framed protocol; half of the inputs get right check sums again after their change, or nothing behind the check would be reached.</summary>
internal sealed class FrameTarget : IFuzzTarget
{
    public IReadOnlyList<byte[]> Corpus { get; } =
    [
        Stream(SampleFormat.Int16, FrameAxes.All, 1, several: false), Stream(SampleFormat.Int24, FrameAxes.All, 1, several: false), Stream(SampleFormat.Float32, FrameAxes.All, 1, several: false),
        Stream(SampleFormat.Int16, FrameAxes.All, 2, several: true), Stream(SampleFormat.Float32, FrameAxes.All, 8, several: true),
    ];

    public IReadOnlyList<string> Words { get; } = ["W", "\u0001", "\u0002", "\u007f", "device"];

    public int Longest => 20_000;

    public bool Take(byte[] input, Random random)
    {
        if (random.Next(2) == 0)
        {
            Seal(input);
        }

        return DecoderTarget.Take(new FrameDecoder(new SourceCounters()), 0, input, random);
    }

    public void Dispose()
    {
    }

    private static byte[] Stream(SampleFormat format, byte axes, int sensors, bool several)
    {
        var encoder = new FrameEncoder(new() { Axes = axes, Format = format, RateMilliHz = 4_000_000, Scale = 0.0625f, Rail = 32767, Start = 77, Kind = several ? FrameKind.SeveralSamples : FrameKind.Samples, Sensors = (byte)sensors });
        var block = new SampleBlock(sensors * FrameAxes.Count(axes), 8);
        block.SetCount(8);
        var bytes = new List<byte>();
        var frame = new byte[FrameHead.MaxLength];
        for (var n = 0; n < 12; n++)
        {
            for (var channel = 0; channel < block.Channels; channel++)
            {
                block.Fill(channel)[n % 8] = 3 * n - 7 * channel;
            }

            var length = n % 6 == 0 ? encoder.Announcement(frame, "device 1.0", encoder.Counter * 250) : encoder.Samples(frame, block, 0, 8, encoder.Counter * 250);
            bytes.AddRange(frame[..length]);
        }

        return [.. bytes];
    }

    /// <summary>Writes the right check sum behind everything that begins like a frame and has room for the length it states (bytes 4 and 5; a test of the notes holds the layout).</summary>
    private static void Seal(Span<byte> bytes)
    {
        for (var at = 0; at + FrameHead.Size + FrameHead.TailSize <= bytes.Length; at++)
        {
            if (bytes[at] != FrameHead.Sync0 || bytes[at + 1] != FrameHead.Sync1)
            {
                continue;
            }

            var length = BinaryPrimitives.ReadUInt16LittleEndian(bytes[(at + 4)..]);
            if (length >= FrameHead.Size + FrameHead.TailSize && length <= bytes.Length - at)
            {
                BinaryPrimitives.WriteUInt16LittleEndian(bytes[(at + length - FrameHead.TailSize)..], Crc16.Of(bytes.Slice(at, length - FrameHead.TailSize)));
                at += length - 1;
            }
        }
    }
}
