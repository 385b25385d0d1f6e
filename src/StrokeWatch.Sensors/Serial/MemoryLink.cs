namespace StrokeWatch.Sensors.Serial;

/// <summary>A cable inside this process, for systems without pseudo-terminals: bytes written at one end are read at the other.</summary>
public sealed class MemoryLink : IByteSink, IByteSourceOpener, IByteSource
{
    private static readonly TimeSpan Patience = TimeSpan.FromMilliseconds(200);
    private readonly Lock gate = new();
    private readonly AutoResetEvent written = new(false);
    private readonly byte[] buffer;
    private int start;
    private int held;
    private bool plugged = true;

    /// <summary>Makes a link that holds so many bytes before it takes no more.</summary>
    public MemoryLink(int capacity = 65536) => buffer = new byte[capacity];

    /// <inheritdoc/>
    public string Name => "link inside the program";

    /// <summary>Pulls the plug: readers are told that the link is closed, and what it held is lost.</summary>
    public void Unplug() => Set(false);

    /// <summary>Puts the plug back.</summary>
    public void Plug() => Set(true);

    /// <inheritdoc/>
    public OpenResult Open()
    {
        lock (gate)
        {
            return plugged ? OpenResult.Opened(this) : new(null, OpenFault.Missing, $"{Name}: unplugged; plug it in again");
        }
    }

    /// <inheritdoc/>
    public int Write(ReadOnlySpan<byte> bytes)
    {
        int taken;
        lock (gate)
        {
            taken = plugged ? Math.Min(bytes.Length, buffer.Length - held) : 0;
            var at = (start + held) % buffer.Length;
            var first = Math.Min(taken, buffer.Length - at);
            bytes[..first].CopyTo(buffer.AsSpan(at));
            bytes[first..taken].CopyTo(buffer);
            held += taken;
        }

        _ = written.Set();
        return taken;
    }

    /// <inheritdoc/>
    public ReadStatus Read(Span<byte> buffer, out int count)
    {
        var status = Take(buffer, out count);
        if (status == ReadStatus.Nothing && written.WaitOne(Patience))
        {
            status = Take(buffer, out count);
        }

        return status;
    }

    /// <summary>Ends one reader's use of the link; the link itself can be opened again.</summary>
    public void Dispose()
    {
    }

    private ReadStatus Take(Span<byte> target, out int count)
    {
        lock (gate)
        {
            count = Math.Min(target.Length, held);
            if (count == 0)
            {
                return plugged ? ReadStatus.Nothing : ReadStatus.Closed;
            }

            var first = Math.Min(count, buffer.Length - start);
            buffer.AsSpan(start, first).CopyTo(target);
            buffer.AsSpan(0, count - first).CopyTo(target[first..]);
            start = (start + count) % buffer.Length;
            held -= count;
            return ReadStatus.Data;
        }
    }

    private void Set(bool value)
    {
        lock (gate)
        {
            plugged = value;
            held = 0;
        }

        _ = written.Set();
    }
}
