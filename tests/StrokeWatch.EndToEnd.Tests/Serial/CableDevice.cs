using StrokeWatch.Samples.Blocks;
using StrokeWatch.Sensors.Frames;

namespace StrokeWatch.EndToEnd.Tests.Serial;

/// <summary>A sensor at 4 kHz with three axes whose every value follows from the running number of its sample.</summary>
internal sealed class CableDevice(ushort startNumber)
{
    public const int PerFrame = 32;
    public const double RateHz = 4000;
    private const float Scale = 0.0125f;

    private readonly SampleBlock block = new(3, PerFrame);
    private readonly byte[] frame = new byte[FrameHead.MaxLength];
    private readonly FrameEncoder encoder = new(new FrameHead
    {
        Axes = FrameAxes.All,
        Format = SampleFormat.Int16,
        RateMilliHz = 4_000_000,
        Scale = Scale,
        Rail = 32767,
        Start = startNumber,
    });

    public long Samples => (long)encoder.Counter;

    /// <summary>The value of a sample in m/s², one exact count a sample.</summary>
    public static double Value(long sample, int axis) => ((((sample * 7919) + (axis * 104729)) % 60001) - 30000) * (double)Scale;

    public ReadOnlySpan<byte> Frame()
    {
        for (var axis = 0; axis < 3; axis++)
        {
            for (var i = 0; i < PerFrame; i++)
            {
                block.Fill(axis)[i] = Value(Samples + i, axis);
            }
        }

        block.SetCount(PerFrame);
        return frame.AsSpan(0, encoder.Samples(frame, block, 0, PerFrame, Clock));
    }

    public ReadOnlySpan<byte> Announcement() => frame.AsSpan(0, encoder.Announcement(frame, "cullet feeder, tray", Clock));

    private ulong Clock => (ulong)(Samples * 1e6 / RateHz);
}
