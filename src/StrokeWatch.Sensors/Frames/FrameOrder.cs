namespace StrokeWatch.Sensors.Frames;

/// <summary>The judge of the order of frames: lost ones, repeated ones, and a device that started anew.</summary>
/// <remarks>
/// The running number of the samples says how many are missing; the sequence number tells a repeated frame from a new start where the
/// number of the start does not.
/// </remarks>
internal sealed class FrameOrder
{
    /// <summary>How far back, in frames, a frame may come from and still count as a repeated one.</summary>
    private const int RepeatReach = 256;

    /// <summary>Repeated frames in a row after which a device is believed to have started anew under the same number.</summary>
    private const int RepeatsInRow = 8;

    private bool known;
    private bool samplesKnown;
    private bool restartPending;
    private ushort startNumber;
    private ushort nextSequence;
    private ulong nextCounter;
    private ulong lastClock;
    private int repeats;

    /// <summary>Judges a frame and, where it is accepted, goes on from it.</summary>
    public FrameStep Judge(in FrameHead head)
    {
        var restarted = false;
        if (known)
        {
            restarted = head.Start != startNumber;
            if (!restarted && IsBack(head))
            {
                if (IsRepeat(head) && repeats < RepeatsInRow)
                {
                    repeats++;
                    return default;
                }

                restarted = true;
            }
        }

        known = true;
        repeats = 0;
        startNumber = head.Start;
        nextSequence = (ushort)(head.Sequence + 1);
        lastClock = head.Clock;
        restartPending |= restarted && samplesKnown;
        return head.HoldsSamples ? Follow(head) : new(true, false, 0, restartPending);
    }

    private FrameStep Follow(in FrameHead head)
    {
        var restarted = restartPending;
        long? missing = samplesKnown && !restarted ? (long)(head.Counter - nextCounter) : 0;
        var overflow = samplesKnown && (head.Flags & FrameFlags.Overflow) != 0;
        var gap = restarted || overflow || missing > 0;
        if (restarted || (overflow && missing == 0))
        {
            missing = null;
        }

        restartPending = false;
        samplesKnown = true;
        nextCounter = head.Counter + (ulong)head.SampleCount;
        return new(true, gap, missing, restarted);
    }

    private bool IsBack(in FrameHead head)
    {
        if (samplesKnown && head.Counter < nextCounter)
        {
            return true;
        }

        // An announcement repeats the number of the next sample, so only its sequence number tells that it was seen.
        return !head.HoldsSamples && (!samplesKnown || head.Counter == nextCounter) && StepsBack(head) is >= 1 and <= RepeatReach;
    }

    private bool IsRepeat(in FrameHead head) => head.Start != 0
        ? StepsBack(head) is >= 1 and <= RepeatReach
        : StepsBack(head) == 1 && head.Clock == lastClock;

    private int StepsBack(in FrameHead head) => (ushort)(nextSequence - head.Sequence);
}
