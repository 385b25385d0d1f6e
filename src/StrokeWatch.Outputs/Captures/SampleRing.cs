using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Samples.Sources;

namespace StrokeWatch.Outputs.Captures;

/// <summary>
/// The newest samples of one device, as read, in memory of fixed size: 4 bytes a sample and channel. One thread fills it and never waits; another reads,
/// and learns what was overwritten before it came. Nothing is allocated after it was made.
/// </summary>
/// <remarks>A gap is a frame that is no sample: a NaN whose lowest 22 bits say how many samples are missing (IEEE 754-2008, 6.2: a quiet NaN's payload is kept by copying).</remarks>
internal sealed class SampleRing
{
    private const int QuietNaN = 0x7FC00000;
    private const int MostMissing = 0x3FFFFF;

    private readonly float[] values;
    private readonly int frames;
    private readonly SourceInfo info;
    private double rate;
    private long claimed;
    private long head;
    private long stamp;

    /// <summary>Makes it for so many seconds of a device's samples.</summary>
    public SampleRing(SourceInfo info, int channels, double rateHz, double seconds)
    {
        (this.info, Channels, rate) = (info, channels, rateHz);
        Width = channels + (info.HasSupply ? 1 : 0);
        frames = (int)Math.Ceiling(rateHz * seconds) + 1;
        values = new float[frames * Width];
    }

    /// <summary>Gets what the device says of itself.</summary>
    public SourceInfo Info => info;

    /// <summary>Gets the channels of the axes.</summary>
    public int Channels { get; }

    /// <summary>Gets the numbers of one frame: the axes, and the supply's voltage after them.</summary>
    public int Width { get; }

    /// <summary>Gets how many frames it holds.</summary>
    public int Frames => frames;

    /// <summary>Gets the bytes it takes.</summary>
    public long Bytes => 4L * values.Length;

    /// <summary>Gets the rate in Hz, as last stated.</summary>
    public double RateHz => Volatile.Read(ref rate);

    /// <summary>Gets the place after the newest frame; places count from the first frame ever.</summary>
    public long Head => Volatile.Read(ref head);

    /// <summary>Gets when the newest block was taken, as the clock's time stamp.</summary>
    public long Stamp => Volatile.Read(ref stamp);

    /// <summary>Gives how many samples a frame says are missing; −1 where it is a sample.</summary>
    public static int Missing(float first) => float.IsNaN(first) ? BitConverter.SingleToInt32Bits(first) & MostMissing : -1;

    /// <summary>Says whether it can go on with what a source gives now.</summary>
    public bool Fits(SourceInfo now, int channels, double rateHz) => channels == Channels && Math.Abs(rateHz - rate) <= 1e-3 * rate
        && (ReferenceEquals(now, info) || (now.HasSupply == info.HasSupply && now.FullScale == info.FullScale && now.Axes.SequenceEqual(info.Axes)));

    /// <summary>Takes a block; belongs to the one thread that fills it.</summary>
    public void Take(SampleBlock block, double rateHz, long now)
    {
        Volatile.Write(ref rate, rateHz);
        if (block.GapBefore)
        {
            Claim(1);
            Mark(head, block.MissingBefore);
            Publish(1);
        }

        Claim(block.Count);
        var begin = (int)(head % frames);
        for (var channel = 0; channel < Channels; channel++)
        {
            Copy(block[channel], begin, channel, 1 / Gravity.Standard);
        }

        if (Width > Channels && block.HasSupply)
        {
            Copy(block.Supply, begin, Channels, 1);
        }
        else if (Width > Channels)
        {
            Blank(block.Count, begin);
        }

        Repair(block.Count);
        Publish(block.Count);
        Volatile.Write(ref stamp, now);
    }

    /// <summary>Reads frames from a place on, as many as are there and fit; moves the place.</summary>
    /// <param name="place">The place; moved past what was overwritten and what was read.</param>
    /// <param name="into">Takes whole frames.</param>
    /// <param name="overwritten">How many frames were lost because the reader came too late; they lie before those read.</param>
    public int Read(ref long place, Span<float> into, out long overwritten)
    {
        var oldest = Volatile.Read(ref claimed) - frames;
        overwritten = Math.Max(0, oldest - place);
        place += overwritten;
        var count = (int)Math.Clamp(Head - place, 0, into.Length / Width);
        var (begin, first) = ((int)(place % frames), 0);
        first = Math.Min(count, frames - begin);
        values.AsSpan(begin * Width, first * Width).CopyTo(into);
        values.AsSpan(0, (count - first) * Width).CopyTo(into[(first * Width)..]);
        Interlocked.MemoryBarrier();
        place += count;
        if (place - count >= Volatile.Read(ref claimed) - frames)
        {
            return count;
        }

        // The filling thread came round while these were copied: none of them can be trusted.
        overwritten += count;
        return 0;
    }

    /// <summary>Gives how many samples are missing between two places, as far as that is not overwritten.</summary>
    public long MissingBetween(long from, long to)
    {
        var missing = 0L;
        for (var place = Math.Max(from, to - frames); place < to; place++)
        {
            // The frame that says so stands for one of them.
            missing += Missing(values[(int)(place % frames) * Width]) is var gone and >= 0 ? gone - 1 : 0;
        }

        return missing;
    }

    private void Claim(int count)
    {
        // A full fence: the claim must be seen before anything in the claimed place changes.
        _ = Interlocked.Exchange(ref claimed, head + count);
    }

    private void Publish(int count) => Volatile.Write(ref head, head + count);

    private void Mark(long place, long missing) =>
        values[(int)(place % frames) * Width] = BitConverter.Int32BitsToSingle(QuietNaN | (int)Math.Clamp(missing, 0, MostMissing));

    private void Copy(ReadOnlySpan<double> from, int begin, int channel, double factor)
    {
        var at = (begin * Width) + channel;
        foreach (var value in from)
        {
            values[at] = (float)(value * factor);
            at += Width;
            at = at >= values.Length ? at - values.Length : at;
        }
    }

    private void Blank(int count, int begin)
    {
        for (var i = 0; i < count; i++)
        {
            values[((begin + i) % frames * Width) + Channels] = float.NaN;
        }
    }

    /// <summary>Makes a frame with a number that is none on an axis a gap of one sample.</summary>
    private void Repair(int count)
    {
        for (var i = 0; i < count; i++)
        {
            var at = (int)((head + i) % frames) * Width;
            for (var channel = 0; channel < Channels; channel++)
            {
                if (!float.IsFinite(values[at + channel]))
                {
                    Mark(head + i, 1);
                    break;
                }
            }
        }
    }
}
