using StrokeWatch.Sensors.Frames;
using StrokeWatch.Sensors.Serial;

namespace StrokeWatch.Sensors.Simulated;

/// <summary>The sending side of a cable that nobody may be listening to: it never waits; a frame that has begun is finished first, others are lost whole.</summary>
internal sealed class FrameSender(IByteSink sink)
{
    private readonly byte[] rest = new byte[FrameHead.MaxLength];
    private int from;
    private int to;

    /// <summary>Gets the frames lost for want of room.</summary>
    public long Dropped { get; private set; }

    /// <summary>Sends a frame, or counts it as lost.</summary>
    public void Send(ReadOnlySpan<byte> frame)
    {
        if (!SendRest())
        {
            Dropped++;
            return;
        }

        var sent = sink.Write(frame);
        if (sent == 0)
        {
            Dropped++;
            return;
        }

        frame[sent..].CopyTo(rest);
        (from, to) = (0, frame.Length - sent);
    }

    /// <summary>Sends what is left of a frame that has begun; false where some is left still.</summary>
    public bool SendRest()
    {
        if (from < to)
        {
            from += sink.Write(rest.AsSpan(from, to - from));
        }

        return from == to;
    }
}
