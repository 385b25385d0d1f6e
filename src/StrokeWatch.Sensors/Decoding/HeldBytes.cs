namespace StrokeWatch.Sensors.Decoding;

/// <summary>Bytes that wait to be decoded, in a buffer of fixed size, so that nothing is allocated as they come and go.</summary>
internal sealed class HeldBytes(int capacity)
{
    private readonly byte[] buffer = new byte[capacity];
    private int start;
    private int end;

    /// <summary>Gets the bytes held, oldest first; good until the next <see cref="Take"/>.</summary>
    public ReadOnlySpan<byte> All => buffer.AsSpan(start, end - start);

    /// <summary>Takes bytes in behind those held and says how many there was room for.</summary>
    public int Take(ReadOnlySpan<byte> bytes)
    {
        if (start > 0 && buffer.Length - end < bytes.Length)
        {
            buffer.AsSpan(start, end - start).CopyTo(buffer);
            end -= start;
            start = 0;
        }

        var taken = Math.Min(bytes.Length, buffer.Length - end);
        bytes[..taken].CopyTo(buffer.AsSpan(end));
        end += taken;
        return taken;
    }

    /// <summary>Drops the oldest bytes.</summary>
    public void Drop(int count)
    {
        ArgumentOutOfRangeException.ThrowIfGreaterThan((uint)count, (uint)(end - start), nameof(count));
        start += count;
    }

    /// <summary>Drops all.</summary>
    public void Clear() => start = end = 0;
}
