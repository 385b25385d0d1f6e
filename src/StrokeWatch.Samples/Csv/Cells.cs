namespace StrokeWatch.Samples.Csv;

/// <summary>The cells of one line, one after another, trimmed and out of their quotes.</summary>
internal ref struct Cells
{
    /// <summary>The separator that stands for any run of spaces and tabs.</summary>
    public const byte Whitespace = (byte)' ';

    private readonly byte separator;
    private ReadOnlySpan<byte> rest;
    private bool more;

    /// <summary>Begins at the first cell of a line.</summary>
    public Cells(ReadOnlySpan<byte> line, byte separator)
    {
        this.separator = separator;
        rest = separator == Whitespace ? line.Trim(" \t"u8) : line;
        more = !rest.IsEmpty;
    }

    /// <summary>Gets the cell.</summary>
    public ReadOnlySpan<byte> Current { get; private set; }

    /// <summary>Gets what follows the cell, its separator excluded.</summary>
    public readonly ReadOnlySpan<byte> Rest => rest;

    /// <summary>Gets whether another cell follows.</summary>
    public readonly bool More => more;

    /// <summary>Goes to the next cell; false at the end of the line.</summary>
    public bool MoveNext()
    {
        if (!more)
        {
            return false;
        }

        var end = EndOfCell();
        var cell = rest[..end];
        more = end < rest.Length;
        rest = more ? rest[(end + 1)..] : default;
        if (separator == Whitespace)
        {
            rest = rest.TrimStart(" \t"u8);
        }

        Current = Unquote(Trim(cell));
        return true;
    }

    private readonly int EndOfCell()
    {
        var from = 0;
        var quote = Trim(rest) is [(byte)'"', ..] ? rest.IndexOf((byte)'"') : -1;
        if (quote >= 0)
        {
            var close = rest[(quote + 1)..].IndexOf((byte)'"');
            from = close < 0 ? 0 : quote + 1 + close + 1;
        }

        var end = separator == Whitespace ? rest[from..].IndexOfAny((byte)' ', (byte)'\t') : rest[from..].IndexOf(separator);
        return end < 0 ? rest.Length : from + end;
    }

    private static ReadOnlySpan<byte> Trim(ReadOnlySpan<byte> cell)
    {
        var (start, end) = (0, cell.Length);
        while (start < end && cell[start] is (byte)' ' or (byte)'\t')
        {
            start++;
        }

        while (end > start && cell[end - 1] is (byte)' ' or (byte)'\t')
        {
            end--;
        }

        return cell[start..end];
    }

    private static ReadOnlySpan<byte> Unquote(ReadOnlySpan<byte> cell) =>
        cell.Length >= 2 && cell[0] == '"' && cell[^1] == '"' ? Trim(cell[1..^1]) : cell;
}
