namespace StrokeWatch.Sensors.Chips;

/// <summary>Frames on their way from the draining thread to the measuring one: a fixed number; where there is no room the oldest goes, and is counted.</summary>
internal sealed class FrameQueue : IDisposable
{
    private readonly Lock gate = new();
    private readonly AutoResetEvent put = new(false);
    private readonly byte[] store;
    private readonly int[] lengths;
    private readonly int slot;
    private int first;
    private int held;
    private bool closed;

    /// <summary>Makes a queue of so many frames of at most so many bytes.</summary>
    public FrameQueue(int frames, int mostBytes)
    {
        slot = mostBytes;
        store = new byte[frames * mostBytes];
        lengths = new int[frames];
    }

    /// <summary>Gets the frames that gave way to newer ones.</summary>
    public long Dropped { get; private set; }

    /// <summary>Puts a frame in; it never waits.</summary>
    public void Put(ReadOnlySpan<byte> frame)
    {
        lock (gate)
        {
            if (held == lengths.Length)
            {
                first = (first + 1) % lengths.Length;
                held--;
                Dropped++;
            }

            var at = (first + held++) % lengths.Length;
            frame.CopyTo(store.AsSpan(at * slot, slot));
            lengths[at] = frame.Length;
        }

        _ = put.Set();
    }

    /// <summary>Says that no more will come.</summary>
    public void Close()
    {
        lock (gate)
        {
            closed = true;
        }

        _ = put.Set();
    }

    /// <summary>Takes as many whole frames as there are and fit; says whether any came, and whether none will come any more.</summary>
    public int Take(Span<byte> into, out bool ended)
    {
        var count = 0;
        lock (gate)
        {
            while (held > 0 && count + lengths[first] <= into.Length)
            {
                store.AsSpan(first * slot, lengths[first]).CopyTo(into[count..]);
                count += lengths[first];
                first = (first + 1) % lengths.Length;
                held--;
            }

            ended = closed && held == 0;
        }

        return count;
    }

    /// <summary>Waits for something to happen.</summary>
    public void Wait(TimeSpan patience) => _ = put.WaitOne(patience);

    /// <inheritdoc/>
    public void Dispose() => put.Dispose();
}
