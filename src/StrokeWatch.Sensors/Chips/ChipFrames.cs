using System.Buffers.Binary;
using System.Text;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Sensors.Frames;

namespace StrokeWatch.Sensors.Chips;

/// <summary>Writes what a chip gave as frames of the framed protocol, so that a chip on a bus goes the way of every other sensor: gaps, rails, rate and restarts are told by one decoder.</summary>
internal sealed class ChipFrames
{
    private const int Axes = 3;
    private readonly FrameHead pattern;
    private readonly double rateHz;
    private readonly byte[] frame = new byte[FrameHead.MaxLength];
    private readonly int bytes;
    private ushort sequence;
    private ulong counter;

    /// <summary>Makes the writer of a chip that was started for the n-th time, n from 1 on.</summary>
    public ChipFrames(ChipSettings settings, ushort start)
    {
        // Twenty bits need three bytes; sixteen need two.
        var format = settings.Model.SampleBytes > 6 ? SampleFormat.Int24 : SampleFormat.Int16;
        bytes = FrameHead.BytesOf(format);
        rateHz = settings.Rate.Hz;
        pattern = new()
        {
            Kind = FrameKind.Samples,
            Axes = FrameAxes.All,
            Format = format,
            RateMilliHz = (uint)Math.Round(rateHz * 1000),
            Scale = (float)(Gravity.Standard / settings.Range.CountsPerG),
            Rail = (uint)settings.Range.Rail,
            Start = start,
        };
        MostBytes = Math.Max(FrameHead.Size + FrameHead.MaxText, FrameHead.Size + (Math.Min(settings.Model.FifoSamples + 8, MostSamples) * Axes * bytes)) + FrameHead.TailSize;
    }

    /// <summary>Gets the most bytes of a frame that is written.</summary>
    public int MostBytes { get; }

    private int MostSamples => FrameHead.MaxPayload / (Axes * bytes);

    /// <summary>Writes a drain into the queue; the newest of its samples was taken about half a sample before a time in s.</summary>
    public void Samples(ChipDrain drain, double drainedSeconds, FrameQueue queue)
    {
        var most = (MostBytes - FrameHead.Size - FrameHead.TailSize) / (Axes * bytes);
        for (var from = 0; from < drain.Count;)
        {
            var to = from + 1;
            while (to < drain.Count && to - from < most && !drain.BreakBefore(to))
            {
                to++;
            }

            for (var sample = from; sample < to; sample++)
            {
                Put(drain[sample], FrameHead.Size + ((sample - from) * Axes * bytes));
            }

            var taken = drainedSeconds - ((drain.Count - from - 0.5) / rateHz);
            var length = Seal(FrameKind.Samples, drain.BreakBefore(from) ? FrameFlags.Overflow : FrameFlags.None, (to - from) * Axes * bytes, taken);
            counter += (ulong)(to - from);
            queue.Put(frame.AsSpan(0, length));
            from = to;
        }
    }

    /// <summary>Writes an announcement into the queue.</summary>
    public void Announce(string text, double seconds, FrameQueue queue)
    {
        Encoding.UTF8.GetEncoder().Convert(text, frame.AsSpan(FrameHead.Size, FrameHead.MaxText), flush: true, out _, out var written, out _);
        queue.Put(frame.AsSpan(0, Seal(FrameKind.Announcement, FrameFlags.None, written, seconds)));
    }

    private int Seal(FrameKind kind, FrameFlags flags, int payload, double seconds) => FrameEncoder.Seal(frame, pattern with
    {
        Kind = kind,
        Flags = flags,
        Length = (ushort)(FrameHead.Size + payload + FrameHead.TailSize),
        Sequence = sequence++,
        Clock = (ulong)Math.Max(0, seconds * 1e6),
        Counter = counter,
    });

    private void Put(ReadOnlySpan<int> sample, int at)
    {
        foreach (var value in sample)
        {
            if (bytes == 2)
            {
                BinaryPrimitives.WriteInt16LittleEndian(frame.AsSpan(at), (short)value);
            }
            else
            {
                (frame[at], frame[at + 1], frame[at + 2]) = ((byte)value, (byte)(value >> 8), (byte)(value >> 16));
            }

            at += bytes;
        }
    }
}
