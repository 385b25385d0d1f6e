namespace StrokeWatch.Samples.Csv;

/// <summary>What a line would be as a row of a table: its separator, its cells, and which of them are numbers.</summary>
/// <param name="Separator">The separator with which it makes most sense.</param>
/// <param name="Cells">Its cells, empty ones at its end left out.</param>
/// <param name="Numeric">A bit for each of the first 64 cells that is a number or a time.</param>
/// <param name="Texts">How many cells are text.</param>
internal readonly record struct LineShape(byte Separator, int Cells, ulong Numeric, int Texts)
{
    private static ReadOnlySpan<byte> Separators => "\t;, "u8;

    /// <summary>Gets whether the line can be a row: some numbers and no text.</summary>
    public bool IsPure => Texts == 0 && Numeric != 0;

    /// <summary>Gets whether the line has numbers and text.</summary>
    public bool IsMixed => Texts > 0 && Numeric != 0;

    /// <summary>Finds the shape of a line: fewest texts first, then tab before semicolon, comma and spaces.</summary>
    public static LineShape Of(ReadOnlySpan<byte> line)
    {
        LineShape? best = null;
        foreach (var separator in Separators)
        {
            if (line.Contains(separator) && With(line, separator) is var shape && (best is not { } b || shape.Texts < b.Texts))
            {
                best = shape;
            }
        }

        return best ?? With(line, (byte)',');
    }

    /// <summary>Finds the shape of a line with a given separator.</summary>
    public static LineShape With(ReadOnlySpan<byte> line, byte separator)
    {
        int index = 0, count = 0, texts = 0;
        ulong numeric = 0;
        var cells = new Cells(line, separator);
        while (cells.MoveNext())
        {
            var kind = KindOf(cells.Current, separator);
            if (kind is CellKind.Number or CellKind.Timestamp && index < 64)
            {
                numeric |= 1UL << index;
            }

            texts += kind == CellKind.Text ? 1 : 0;
            index++;
            count = kind == CellKind.Empty ? count : index;
        }

        return new(separator, count, numeric, texts);
    }

    /// <summary>Says what a cell holds.</summary>
    public static CellKind KindOf(ReadOnlySpan<byte> cell, byte separator)
    {
        if (cell.IsEmpty)
        {
            return CellKind.Empty;
        }

        if (NumberText.TryRead(cell, separator != (byte)',', out _, out var length) && length == cell.Length)
        {
            return CellKind.Number;
        }

        return NumberText.IsNanOrInfinite(cell) ? CellKind.Number
            : TimestampText.TryRead(cell, out _) ? CellKind.Timestamp
            : CellKind.Text;
    }
}
