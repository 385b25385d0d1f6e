namespace StrokeWatch.Samples.Csv;

/// <summary>Reads the chosen cells of a row; nothing is allocated.</summary>
internal sealed class RowParser
{
    private const int Unused = ColumnPlan.Unused, TimeSlot = ColumnPlan.TimeSlot, NoSlot = -3;

    private readonly byte separator;
    private readonly bool commaIsMark;
    private readonly int[] slots;
    private readonly int mostCells;
    private readonly double[] scales;
    private readonly bool clockTime;
    private readonly double[] values;
    private readonly int supplySlot;

    /// <summary>Makes a parser for a plan.</summary>
    public RowParser(byte separator, ColumnPlan plan)
    {
        this.separator = separator;
        commaIsMark = separator != (byte)',';
        mostCells = plan.MostCells;
        scales = plan.AllScales();
        clockTime = plan.ClockTime;
        values = new double[plan.Values];
        slots = plan.Slots();
        supplySlot = plan.Supply < 0 ? NoSlot : plan.Columns.Length;
    }

    /// <summary>Gets the values of the row last read, in m/s²; the supply's voltage comes last, in volts, NaN where its cell holds no number.</summary>
    public ReadOnlySpan<double> Values => values;

    /// <summary>Gets the time of the row last read, in the unit of its column; null where the cell is empty.</summary>
    public DecimalNumber? Time { get; private set; }

    /// <summary>Reads a row.</summary>
    public RowOutcome Read(ReadOnlySpan<byte> line)
    {
        Time = null;
        return ReadPlain(line) ? RowOutcome.Read : ReadAny(line);
    }

    /// <summary>Reads a row without quotes whose every chosen cell is a finite number and which ends where it should: most rows that are not for <see cref="PlainRows"/>.</summary>
    private bool ReadPlain(ReadOnlySpan<byte> line)
    {
        if (clockTime)
        {
            return false;
        }

        var at = 0;
        for (var i = 0; i < slots.Length; i++)
        {
            var slot = slots[i];
            while (at < line.Length && line[at] is (byte)' ' or (byte)'\t' && line[at] != separator)
            {
                at++;
            }

            if (slot == Unused)
            {
                var end = line[at..].IndexOf(separator);
                if (end < 0 || separator == Cells.Whitespace || line[at] == (byte)'"')
                {
                    return false;
                }

                at += end + 1;
                continue;
            }

            var cell = line[at..];
            if (!NumberText.TryRead(cell, commaIsMark, out var number, out var length))
            {
                return false;
            }

            if (slot == TimeSlot)
            {
                Time = number;
                if (number.Exponent is < -60 or > 60)
                {
                    return false;
                }
            }
            else
            {
                var value = NumberText.ToDouble(cell[..length], number) * scales[slot];
                values[slot] = value;
                if (!double.IsFinite(value))
                {
                    return false;
                }
            }

            at += length;
            if (at == line.Length)
            {
                return i == slots.Length - 1;
            }

            if (line[at] != separator)
            {
                return false;
            }

            at++;
        }

        return CountSeparators(line[at..]) < mostCells - slots.Length || at == line.Length;
    }

    private RowOutcome ReadAny(ReadOnlySpan<byte> line)
    {
        Time = null;
        var cells = new Cells(line, separator);
        for (var i = 0; i < slots.Length; i++)
        {
            if (!cells.MoveNext())
            {
                return slots.AsSpan(i).IndexOfAnyExcept(Unused, supplySlot) < 0 ? WithoutSupply() : Why(line, RowOutcome.TooFewColumns);
            }

            if (slots[i] == Unused)
            {
                continue;
            }

            var outcome = slots[i] == TimeSlot ? ReadTime(cells.Current) : ReadValue(cells.Current, slots[i]);
            if (outcome != RowOutcome.Read && slots[i] == supplySlot)
            {
                // A voltage that is missing spoils the voltage, not the acceleration beside it.
                outcome = WithoutSupply();
            }

            if (outcome != RowOutcome.Read)
            {
                return Why(line, outcome);
            }
        }

        return cells.More && CountSeparators(cells.Rest) >= mostCells - slots.Length && LineShape.With(line, separator).Cells > mostCells
            ? RowOutcome.TooManyColumns
            : RowOutcome.Read;
    }

    private int CountSeparators(ReadOnlySpan<byte> rest) => mostCells == int.MaxValue ? 0 : separator == Cells.Whitespace ? rest.Length : rest.Count(separator);

    private RowOutcome ReadTime(ReadOnlySpan<byte> cell)
    {
        if (cell.IsEmpty)
        {
            return RowOutcome.Read;
        }

        if (clockTime)
        {
            if (!TimestampText.TryRead(cell, out var clock))
            {
                return RowOutcome.NotANumber;
            }

            Time = clock;
            return RowOutcome.Read;
        }

        if (!NumberText.TryRead(cell, commaIsMark, out var number, out var length) || length != cell.Length)
        {
            return NumberText.IsNanOrInfinite(cell) ? RowOutcome.NanOrInfinite : RowOutcome.NotANumber;
        }

        if (Math.Abs(number.Exponent) > 60)
        {
            return number.Exponent > 0 ? RowOutcome.NanOrInfinite : Zero();
        }

        Time = number;
        return RowOutcome.Read;
    }

    private RowOutcome WithoutSupply()
    {
        if (supplySlot != NoSlot)
        {
            values[supplySlot] = double.NaN;
        }

        return RowOutcome.Read;
    }

    private RowOutcome Zero()
    {
        Time = default(DecimalNumber);
        return RowOutcome.Read;
    }

    private RowOutcome ReadValue(ReadOnlySpan<byte> cell, int slot)
    {
        if (!NumberText.TryRead(cell, commaIsMark, out var number, out var length) || length != cell.Length)
        {
            return cell.IsEmpty ? RowOutcome.EmptyCell
                : NumberText.IsNanOrInfinite(cell) ? RowOutcome.NanOrInfinite
                : RowOutcome.NotANumber;
        }

        var value = NumberText.ToDouble(cell, number) * scales[slot];
        values[slot] = value;
        return double.IsFinite(value) ? RowOutcome.Read : RowOutcome.NanOrInfinite;
    }

    /// <summary>Looks again at a row that failed: a sentence among the data is named as such.</summary>
    private RowOutcome Why(ReadOnlySpan<byte> line, RowOutcome outcome)
    {
        if (outcome == RowOutcome.NanOrInfinite)
        {
            return outcome;
        }

        var i = 0;
        var (numbers, words) = (false, false);
        for (var cells = new Cells(line, separator); cells.MoveNext(); i++)
        {
            var kind = LineShape.KindOf(cells.Current, separator);
            words |= kind == CellKind.Text && HasLetters(cells.Current);
            numbers |= i < slots.Length && slots[i] != Unused && kind is CellKind.Number or CellKind.Timestamp;
        }

        return words && !numbers ? RowOutcome.ErrorText : outcome;
    }

    private static bool HasLetters(ReadOnlySpan<byte> cell)
    {
        var letters = 0;
        foreach (var b in cell)
        {
            letters += char.IsAsciiLetter((char)b) || b >= 128 ? 1 : 0;
        }

        return letters >= 2;
    }
}
