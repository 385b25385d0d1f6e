using StrokeWatch.Samples.Blocks;
using StrokeWatch.Sensors.Frames;

namespace StrokeWatch.Tests.Sensors.Frames;

/// <summary>A device on paper: frames whose every value follows from the running number of its sample.</summary>
internal sealed class TestStream
{
    public const int PerFrame = 8;
    private readonly FrameEncoder encoder;
    private readonly SampleBlock block;
    private readonly byte[] frame = new byte[FrameHead.MaxLength];
    private readonly FrameHead pattern;

    public TestStream(SampleFormat format = SampleFormat.Int16, byte axes = FrameAxes.All, ushort start = 77, int sensors = 1, bool several = false)
    {
        pattern = new FrameHead { Axes = axes, Format = format, RateMilliHz = 4_000_000, Scale = 0.0625f, Rail = 32767, Start = start, Kind = several ? FrameKind.SeveralSamples : FrameKind.Samples, Sensors = (byte)sensors };
        encoder = new(pattern);
        block = new(sensors * FrameAxes.Count(axes), 170);
    }

    public ulong Counter
    {
        get => encoder.Counter;
        set => encoder.Counter = value;
    }

    public ulong ClockOffset { get; set; }

    public double ClockRateHz { get; set; } = 4000;

    /// <summary>The value of a sample in m/s²: a count that differs from its neighbours, times the scale.</summary>
    public static double Value(long sample, int channel) => ((((sample * 7919) + (channel * 104729)) % 60001) - 30000) * 0.0625;

    public byte[] Samples(int count = PerFrame)
    {
        for (var channel = 0; channel < block.Channels; channel++)
        {
            for (var i = 0; i < count; i++)
            {
                block.Fill(channel)[i] = Value((long)Counter + i, channel);
            }
        }

        block.SetCount(count);
        return frame[..encoder.Samples(frame, block, 0, count, Clock)];
    }

    public byte[] Announcement(string text = "test device 1.0") => frame[..encoder.Announcement(frame, text, Clock)];

    /// <summary>Frames one after another.</summary>
    public byte[][] Frames(int count) => [.. Enumerable.Range(0, count).Select(_ => Samples())];

    private ulong Clock => ClockOffset + (ulong)(Counter * 1e6 / ClockRateHz);
}
