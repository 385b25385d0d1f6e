using System.Buffers.Binary;
using StrokeWatch.Samples.Sources;
using StrokeWatch.Sensors.Decoding;

namespace StrokeWatch.Sensors.Frames;

/// <summary>The finder of whole frames in a stream of bytes: sync, length, form and check sum, and a new start after rubbish.</summary>
/// <remarks>
/// A candidate that fails is left one byte behind its start, never by its claimed length, so a false sync or a false length cannot
/// swallow a good frame that follows. Bytes wait in a buffer of fixed size; nothing is allocated a frame.
/// </remarks>
internal sealed class FrameScanner(SourceCounters counters)
{
    private readonly HeldBytes waiting = new(2 * (ISampleDecoder.FeedSize + FrameHead.MaxLength));
    private bool ended;
    private bool joined;
    private bool running;

    /// <summary>Takes bytes in and says how many it took.</summary>
    public int Feed(ReadOnlySpan<byte> bytes)
    {
        if (ended)
        {
            waiting.Clear();
            ended = false;
        }

        return waiting.Take(bytes);
    }

    /// <summary>Says that no more bytes follow those held.</summary>
    public void Break() => ended = true;

    /// <summary>Finds the next whole frame; its payload is good until the next call of any method.</summary>
    public bool TryNext(out FrameHead head, out ReadOnlySpan<byte> payload)
    {
        while (FindSync())
        {
            var held = waiting.All;
            if (held.Length >= FrameHead.Size + FrameHead.TailSize)
            {
                head = FrameHead.Read(held);
                if (head.CheckForm() is { } reason)
                {
                    Skip(1, reason);
                    continue;
                }

                if (held.Length >= head.Length)
                {
                    var body = held[..(head.Length - FrameHead.TailSize)];
                    if (Crc16.Of(body) == BinaryPrimitives.ReadUInt16LittleEndian(held[body.Length..]))
                    {
                        payload = body[head.HeadLength..];
                        waiting.Drop(head.Length);
                        joined = true;
                        running = false;
                        return true;
                    }

                    Skip(1, RejectReason.Checksum);
                    continue;
                }
            }

            if (!ended)
            {
                break;
            }

            Skip(1, RejectReason.Length);
        }

        if (ended)
        {
            joined = false;
            running = false;
        }

        head = default;
        payload = default;
        return false;
    }

    /// <summary>Moves to the next two sync bytes, or to one that may be the first of them.</summary>
    private bool FindSync()
    {
        var held = waiting.All;
        var at = held.IndexOf([FrameHead.Sync0, FrameHead.Sync1]);
        if (at < 0)
        {
            var keep = !ended && held is [.., FrameHead.Sync0] ? 1 : 0;
            Skip(held.Length - keep, RejectReason.Rubbish);
            return false;
        }

        Skip(at, RejectReason.Rubbish);
        return true;
    }

    private void Skip(int count, RejectReason reason)
    {
        if (count == 0)
        {
            return;
        }

        waiting.Drop(count);
        counters.SkippedBytes += count;

        // What lies between a bad candidate and the next sync belongs to that candidate: one fault, one count.
        if (!joined)
        {
            reason = RejectReason.Joining;
        }

        if (reason > RejectReason.Rubbish || !running)
        {
            counters.Reject(RejectReasons.Name(reason));
        }

        running = true;
    }
}
