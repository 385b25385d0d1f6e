using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace StrokeWatch.Samples.Csv;

/// <summary>Reads rows of short plain numbers that have no other cells, many at a time, straight out of the buffer of the lines into a stage.</summary>
internal sealed class PlainRows
{
    private readonly byte separator;
    private readonly bool commaIsMark;
    private readonly int[] slots;
    private readonly double[] scales;
    private readonly TimeColumn time;
    private readonly bool timed;

    /// <summary>The time of the row: a field, for the registers are short in the loop over its cells.</summary>
    private DecimalNumber moment;

    private PlainRows(byte separator, ColumnPlan plan, TimeColumn time, bool valuesWanted)
    {
        this.separator = separator;
        this.time = time;
        timed = plan.Time >= 0;
        commaIsMark = separator != (byte)',';
        scales = plan.AllScales();
        slots = plan.Slots();
        for (var i = 0; i < slots.Length && !valuesWanted; i++)
        {
            slots[i] = Math.Min(slots[i], ColumnPlan.Unused);
        }
    }

    /// <summary>Makes a reader; null for a table that cannot have such rows. Where the values are not wanted, they are looked at and not read.</summary>
    public static PlainRows? Of(byte separator, ColumnPlan plan, TimeColumn time, bool valuesWanted) =>
        plan.ClockTime || separator == Cells.Whitespace ? null : new(separator, plan, time, valuesWanted);

    /// <summary>Reads what lies whole in the buffer, until a row is not plain or the stage is full; gives the number of rows and the bytes of the shortest.</summary>
    public (int Rows, int Shortest) Read(ByteLines lines, RowStage stage)
    {
        var waiting = lines.Waiting;
        ref var first = ref MemoryMarshal.GetReference(waiting);
        var (row, used, shortest) = (stage.Count, 0, int.MaxValue);
        for (; row < stage.Capacity; row++)
        {
            ref var text = ref Unsafe.Add(ref first, used);
            var end = BitOperations.TrailingZeroCount(SixtyFour.Equal(ref text, lines.LineEnd));
            if (end == 0 || end >= Math.Min(ByteLines.After, waiting.Length - used))
            {
                break;
            }

            var length = end - (Unsafe.Add(ref text, end - 1) == (byte)'\r' ? 1 : 0);
            if (!TryRead(MemoryMarshal.CreateReadOnlySpan(ref text, length), stage, row))
            {
                break;
            }

            shortest = Math.Min(shortest, length);
            used += end + 1;
        }

        var rows = row - stage.Count;
        lines.Pass(used, rows);
        stage.Count = row;
        return (rows, shortest);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private bool TryRead(ReadOnlySpan<byte> line, RowStage stage, int row)
    {
        if (!PlainRow.TryLook(line, separator, commaIsMark, slots.Length, out var cells))
        {
            return false;
        }

        // The time is counted only once the whole row is good: a row that is not must not be the first.
        foreach (var slot in slots)
        {
            if (slot >= 0)
            {
                if (!cells.TryRead(out double value))
                {
                    return false;
                }

                stage.Values[slot][row] = value * scales[slot];
            }
            else if (slot == ColumnPlan.TimeSlot ? !cells.TryRead(out moment) : !cells.Pass())
            {
                return false;
            }
        }

        stage.Time[row] = timed ? time.Seconds(moment) : double.NaN;
        return true;
    }
}
