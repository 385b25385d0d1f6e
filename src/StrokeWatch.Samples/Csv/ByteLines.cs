namespace StrokeWatch.Samples.Csv;

/// <summary>The lines of a stream as bytes in one buffer that is used again and again.</summary>
/// <remarks>Before each line lie at least 16 bytes of the buffer and after its start at least 64, whatever they hold: a reader may take it in whole registers.</remarks>
internal sealed class ByteLines : IDisposable
{
    /// <summary>The bytes that lie before every line, and those that lie after every start of one.</summary>
    public const int Before = 16, After = 64;

    private readonly int size;
    private readonly Stream stream;
    private readonly byte lineEnd;
    private readonly byte[] buffer;
    private int start;
    private int end;
    private bool ended;

    /// <summary>Makes the lines; a line longer than the buffer is passed over.</summary>
    public ByteLines(Stream stream, byte lineEnd, int bufferSize = 1 << 16)
    {
        this.stream = stream;
        this.lineEnd = lineEnd;
        size = bufferSize;
        buffer = new byte[Before + size + After];
        start = end = Before;
    }

    /// <summary>Gets the number of the line last given, from 1.</summary>
    public long Number { get; private set; }

    /// <summary>Gets whether the line last given had its line end; false only at the end of the file.</summary>
    public bool Terminated { get; private set; }

    /// <summary>Gets whether the line last given was too long to be held and is given as empty.</summary>
    public bool Overlong { get; private set; }

    /// <summary>Gets the byte that ends a line.</summary>
    public byte LineEnd => lineEnd;

    /// <summary>Gets what has been read from the stream from the start of the next line on.</summary>
    public ReadOnlySpan<byte> Waiting => buffer.AsSpan(start, end - start);

    /// <summary>Passes over whole lines that were taken out of <see cref="Waiting"/>.</summary>
    public void Pass(int bytes, int count)
    {
        start += bytes;
        Number += count;
    }

    /// <summary>Gives the next line without its line end; it holds until the next call.</summary>
    public bool TryNext(out ReadOnlySpan<byte> line)
    {
        Overlong = false;
        var searched = 0;
        while (true)
        {
            var found = buffer.AsSpan(start + searched, end - start - searched).IndexOf(lineEnd);
            if (found >= 0)
            {
                line = buffer.AsSpan(start, searched + found);
                start += searched + found + 1;
                return Give(ref line, terminated: true);
            }

            searched = end - start;
            if (ended)
            {
                line = buffer.AsSpan(start, searched);
                start = end;
                return (searched > 0 || Overlong) && Give(ref line, terminated: false);
            }

            if (searched == size)
            {
                Overlong = true;
                start = end = Before;
                searched = 0;
            }

            Refill();
        }
    }

    /// <inheritdoc/>
    public void Dispose() => stream.Dispose();

    private bool Give(ref ReadOnlySpan<byte> line, bool terminated)
    {
        Number++;
        Terminated = terminated;
        if (Overlong)
        {
            line = default;
        }
        else if (line.Length > 0 && line[^1] == (byte)'\r')
        {
            line = line[..^1];
        }

        return true;
    }

    private void Refill()
    {
        if (start > Before)
        {
            buffer.AsSpan(start, end - start).CopyTo(buffer.AsSpan(Before));
            end -= start - Before;
            start = Before;
        }

        var read = stream.Read(buffer, end, Before + size - end);
        end += read;
        ended = read == 0;
    }
}
