using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace StrokeWatch.Samples.Csv;

/// <summary>
/// A row of up to 63 bytes as sets of bits, one bit a byte: digits, marks, signs, separators and what else there is. It knows rows of plain decimal numbers, which are nearly
/// all, and leaves the others to who reads byte by byte.
/// </summary>
/// <remarks>The bits come out of whole registers, so that a row must lie in a buffer of <see cref="ByteLines"/>.</remarks>
internal ref struct PlainRow
{
    /// <summary>The digits that one register holds.</summary>
    private const int MostDigits = 16;

    private ref byte next;
    private ulong marks;
    private ulong minuses;
    private ulong ends;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private PlainRow(ref byte first, ulong marks, ulong minuses, ulong ends)
    {
        next = ref first;
        (this.marks, this.minuses, this.ends) = (marks, minuses, ends);
    }

    /// <summary>Looks at a row; false where it has a byte that no plain number has, or not exactly so many cells.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static bool TryLook(ReadOnlySpan<byte> line, byte separator, bool commaIsMark, int cells, out PlainRow row)
    {
        if (line.Length >= ByteLines.After)
        {
            row = default;
            return false;
        }

        ref var first = ref MemoryMarshal.GetReference(line);
        var end = 1UL << line.Length;
        var inside = end - 1;
        var separators = SixtyFour.Equal(ref first, separator) & inside;
        var marks = SixtyFour.Equal(ref first, (byte)'.') & inside;
        marks |= commaIsMark ? SixtyFour.Equal(ref first, (byte)',') & inside : 0;
        var minuses = SixtyFour.Equal(ref first, (byte)'-') & inside;
        var known = (SixtyFour.Digits(ref first) & inside) | separators | marks | minuses;
        row = new(ref first, marks, minuses, separators | end);

        // A minus stands only where a cell begins.
        return known == inside && (minuses & ~((separators << 1) | 1)) == 0 && BitOperations.PopCount(separators) == cells - 1;
    }

    /// <summary>Passes over the next cell; false where it is no plain number.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public bool Pass() => Next(out _, out _, out _, out _);

    /// <summary>Reads the next cell; false where it is no plain number, or has too many digits for one register.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public bool TryRead(out DecimalNumber number)
    {
        if (!Next(out var sign, out var count, out var decimals, out var lastMoved))
        {
            number = default;
            return false;
        }

        number = new(Digits(count, lastMoved), -decimals, sign != 0);
        return true;
    }

    /// <summary>Reads the next cell to the last bit of a double; false likewise, and where one division of exact doubles does not reach it.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public bool TryRead(out double value)
    {
        if (!Next(out var sign, out var count, out var decimals, out var lastMoved))
        {
            value = 0;
            return false;
        }

        var mantissa = Digits(count, lastMoved);
        value = BitConverter.UInt64BitsToDouble(BitConverter.DoubleToUInt64Bits((long)mantissa / DecimalNumber.Power(decimals)) | (sign << 63));
        return mantissa <= 1UL << 53;
    }

    /// <summary>Sums up the digits of the cell last gone over.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private readonly ulong Digits(int count, int lastMoved)
    {
        // The cell's last byte becomes the register's last. What stands before the mark is loaded one byte on, over the mark; what is no digit of the cell becomes zero.
        var lanes = Vector128<sbyte>.Indices;
        var text = Vector128.LoadUnsafe(ref Unsafe.Subtract(ref next, MostDigits + 1));
        var moved = Vector128.LoadUnsafe(ref Unsafe.Subtract(ref next, MostDigits + 2));
        var unmoved = Vector128.GreaterThan(lanes, Vector128.Create((sbyte)lastMoved)).AsByte();
        var inside = Vector128.GreaterThan(lanes, Vector128.Create((sbyte)(MostDigits - 1 - count))).AsByte();
        return SixteenDigits.Sum((Vector128.ConditionalSelect(unmoved, text, moved) - Vector128.Create((byte)'0')) & inside);
    }

    /// <summary>
    /// Goes over the next cell: 1 for a minus, its digits, those of them after its mark, and the last of a register's places that moves over the mark, -1 where none does.
    /// </summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private bool Next(out ulong sign, out int count, out int decimals, out int lastMoved)
    {
        var end = BitOperations.TrailingZeroCount(ends);
        var mark = marks & (ends - 1);
        sign = minuses & 1;
        (count, decimals, lastMoved) = (end - (int)sign, 0, -1);
        if (mark != 0)
        {
            count--;
            decimals = end - 1 - BitOperations.TrailingZeroCount(mark);
            lastMoved = MostDigits - 1 - decimals;
        }

        // The shift is by 64, and so by none, only where the row is at its end.
        next = ref Unsafe.Add(ref next, end + 1);
        (ends, marks, minuses) = (ends >> (end + 1), marks >> (end + 1), minuses >> (end + 1));
        return (uint)(count - 1) < MostDigits && (mark & (mark - 1)) == 0;
    }
}
