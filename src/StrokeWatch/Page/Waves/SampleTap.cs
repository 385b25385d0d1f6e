using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Sources;

namespace StrokeWatch.Page.Waves;

/// <summary>
/// Looks at one device's samples on their way to the measurement: counts them, and keeps the last second of them while somebody asks for it.
/// Whoever measures never waits here and nothing is allocated a sample: where a reader is just copying, the block is left out and collecting begins anew.
/// </summary>
internal sealed class SampleTap(TimeProvider time)
{
    /// <summary>How much is kept, in seconds.</summary>
    public const double Seconds = 1.1;

    private const int MostSamples = 1 << 16;
    private static readonly TimeSpan Interest = TimeSpan.FromSeconds(5);

    private readonly Lock gate = new();
    private double[][] ring = [];
    private SampleMarks[] marks = [];
    private SourceInfo? info;
    private double rate;
    private double end;
    private int next;
    private int held;
    private long asked = long.MinValue;
    private long arrived = long.MinValue;
    private long clipped;

    /// <summary>Gets how many samples stood at the sensor's rail since the start.</summary>
    public long Clipped => Interlocked.Read(ref clipped);

    /// <summary>Gets how long ago samples came, in seconds; null before the first.</summary>
    public double? AgeSeconds => Interlocked.Read(ref arrived) is var at and not long.MinValue ? time.GetElapsedTime(at).TotalSeconds : null;

    /// <summary>Takes a block as read; belongs to the thread that measures.</summary>
    public void Take(SampleBlock block, SourceInfo source)
    {
        var now = time.GetTimestamp();
        Interlocked.Exchange(ref arrived, now);
        if (block.Marks.ContainsAnyExcept(SampleMarks.None))
        {
            Interlocked.Add(ref clipped, block.Count - block.Marks.Count(SampleMarks.None));
        }

        var wanted = Interlocked.Read(ref asked);
        if (wanted == long.MinValue || time.GetElapsedTime(wanted, now) > Interest || (block.RateHz ?? source.RateHz) is not { } stated || !gate.TryEnter())
        {
            return;
        }

        try
        {
            Keep(block, source, stated);
        }
        finally
        {
            gate.Exit();
        }
    }

    /// <summary>Says that somebody wants the samples, and gives what has been collected; null where that is less than so much. Any thread may ask.</summary>
    /// <param name="seconds">The least wanted, in seconds, below <see cref="Seconds"/>.</param>
    public SampleSnapshot? Ask(double seconds)
    {
        Interlocked.Exchange(ref asked, time.GetTimestamp());
        if (AgeSeconds is not < 2)
        {
            return null;
        }

        lock (gate)
        {
            if (info is null || held < seconds * rate)
            {
                return null;
            }

            var copies = ring.Select(_ => new double[held]).ToArray();
            var first = (next - held + marks.Length) % marks.Length;
            var straight = Math.Min(held, marks.Length - first);
            for (var channel = 0; channel < ring.Length; channel++)
            {
                ring[channel].AsSpan(first, straight).CopyTo(copies[channel]);
                ring[channel].AsSpan(0, held - straight).CopyTo(copies[channel].AsSpan(straight));
            }

            return new(info, rate, copies, [.. marks.AsSpan(first, straight), .. marks.AsSpan(0, held - straight)]);
        }
    }

    private void Make(int channels, int room)
    {
        ring = [.. Enumerable.Range(0, channels).Select(_ => new double[room])];
        marks = new SampleMarks[room];
        (next, held) = (0, 0);
    }

    private void Keep(SampleBlock block, SourceInfo source, double stated)
    {
        var room = Math.Min(MostSamples, (int)Math.Ceiling(Seconds * stated));
        if (ring.Length != block.Channels || marks.Length < room || marks.Length > 2 * room)
        {
            Make(block.Channels, room);
        }

        // What was left out or lost is a gap here: what lies before it is no longer the last second.
        if (block.GapBefore || Math.Abs(block.StartSeconds - end) > 0.6 / stated)
        {
            held = 0;
        }

        (info, rate, end) = (source, stated, block.StartSeconds + block.Count / stated);
        for (var from = Math.Max(0, block.Count - marks.Length); from < block.Count;)
        {
            var part = Math.Min(block.Count - from, marks.Length - next);
            for (var channel = 0; channel < ring.Length; channel++)
            {
                block[channel].Slice(from, part).CopyTo(ring[channel].AsSpan(next));
            }

            block.Marks.Slice(from, part).CopyTo(marks.AsSpan(next));
            next = (next + part) % marks.Length;
            held = Math.Min(marks.Length, held + part);
            from += part;
        }
    }
}
