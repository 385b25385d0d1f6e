using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace StrokeWatch.Samples.Csv;

/// <summary>
/// A row of up to 64 bytes as five sets of bits, one bit a byte: digits, marks, signs, separators and what else there is. It knows rows of plain decimal numbers, which are nearly
/// all, and leaves the others to who reads byte by byte.
/// </summary>
/// <remarks>The bits come out of whole registers, so that a row must lie in a buffer of <see cref="ByteLines"/>.</remarks>
internal ref struct PlainRow
{
    /// <summary>The digits, mark among them, that one register holds.</summary>
    private const int MostDigits = 16;

    private readonly ref byte first;
    private readonly ulong digits;
    private readonly ulong marks;
    private readonly ulong minuses;
    private ulong ends;
    private int at;

    private PlainRow(ref byte first, ulong digits, ulong marks, ulong minuses, ulong ends)
    {
        this.first = ref first;
        (this.digits, this.marks, this.minuses, this.ends) = (digits, marks, minuses, ends);
    }

    /// <summary>Looks at a row; false where it has a byte that no plain number has, or not exactly so many cells.</summary>
    public static bool TryLook(ReadOnlySpan<byte> line, byte separator, bool commaIsMark, int cells, out PlainRow row)
    {
        row = default;
        if ((uint)(line.Length - 1) >= ByteLines.After - 1)
        {
            return false;
        }

        ref var first = ref MemoryMarshal.GetReference(line);
        var low = Vector256.LoadUnsafe(ref first);
        var high = Vector256.LoadUnsafe(ref first, 32);
        var inside = (1UL << line.Length) - 1;
        var digits = Digits(low, high) & inside;
        var separators = Equal(low, high, separator) & inside;
        var marks = Equal(low, high, (byte)'.') & inside;
        marks |= commaIsMark ? Equal(low, high, (byte)',') & inside : 0;
        var minuses = Equal(low, high, (byte)'-') & inside;
        if ((digits | separators | marks | minuses) != inside || BitOperations.PopCount(separators) != cells - 1)
        {
            return false;
        }

        // A minus stands only where a cell begins.
        if ((minuses & ~((separators << 1) | 1)) != 0)
        {
            return false;
        }

        row = new(ref first, digits, marks, minuses, separators | (1UL << line.Length));
        return true;
    }

    /// <summary>Passes over the next cell; false where it is no plain number.</summary>
    public bool Pass() => Next(out _, out _, out _);

    /// <summary>Reads the next cell; false where it is no plain number, or has too many digits for one register.</summary>
    public bool TryRead(out DecimalNumber number)
    {
        var negative = (minuses >> at & 1) != 0;
        var read = Digits(out var mantissa, out var decimals);
        number = new(mantissa, -decimals, negative);
        return read;
    }

    /// <summary>Reads the next cell to the last bit of a double; false likewise, and where one division of exact doubles does not reach it.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public bool TryRead(out double value)
    {
        var sign = (minuses >> at & 1) << 63;
        var read = Digits(out var mantissa, out var decimals);
        value = BitConverter.UInt64BitsToDouble(BitConverter.DoubleToUInt64Bits(mantissa / DecimalNumber.Power(decimals)) | sign);
        return read && mantissa <= 1UL << 53;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private bool Digits(out ulong mantissa, out int decimals)
    {
        if (!Next(out var end, out var length, out decimals))
        {
            (mantissa, decimals) = (0, 0);
            return false;
        }

        // The cell's last byte becomes the register's last; what stands before the mark moves over it, and what is no digit of the cell becomes zero.
        var lanes = Vector128<byte>.Indices;
        var text = Vector128.LoadUnsafe(ref Unsafe.Add(ref first, end - MostDigits)) - Vector128.Create((byte)'0');
        text = Vector128.ConditionalSelect(Vector128.GreaterThanOrEqual(lanes, Vector128.Create((byte)(MostDigits - length))), text, default);
        var mark = Vector128.Create((byte)(decimals < 0 ? 0 : MostDigits - decimals));
        decimals = Math.Max(decimals, 0);
        text = Vector128.ShuffleNative(text, lanes + Vector128.LessThan(lanes, mark));
        var words = text.AsUInt64();
        mantissa = (Eight(words[0]) * 100_000_000) + Eight(words[1]);
        return true;
    }

    /// <summary>Goes over the next cell: where it ends, the bytes after its sign, and the digits after its mark, -1 where there is no mark.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private bool Next(out int end, out int length, out int decimals)
    {
        var start = at + (int)(minuses >> at & 1);
        end = BitOperations.TrailingZeroCount(ends);
        length = end - start;
        ends &= ends - 1;
        at = end + 1;
        decimals = -1;
        if ((uint)(length - 1) >= MostDigits)
        {
            return false;
        }

        var cell = ((1UL << length) - 1) << start;
        var mark = marks & cell;
        if (mark != 0)
        {
            decimals = end - 1 - BitOperations.TrailingZeroCount(mark);
        }

        return (mark & (mark - 1)) == 0 && (digits & cell) != 0;
    }

    /// <summary>Adds up eight digits, the first in the lowest byte (D. Lemire, from memory): neighbours, pairs, fours.</summary>
    private static ulong Eight(ulong word)
    {
        word = (word * 10) + (word >> 8);
        const ulong mask = 0x0000_00FF_0000_00FF;
        return (((word & mask) * 0x000F_4240_0000_0064) + (((word >> 16) & mask) * 0x0000_2710_0000_0001)) >> 32;
    }

    private static ulong Digits(Vector256<byte> low, Vector256<byte> high)
    {
        var (zero, nine) = (Vector256.Create((byte)'0'), Vector256.Create((byte)9));
        return Bits(Vector256.LessThanOrEqual(low - zero, nine), Vector256.LessThanOrEqual(high - zero, nine));
    }

    private static ulong Equal(Vector256<byte> low, Vector256<byte> high, byte what)
    {
        var wanted = Vector256.Create(what);
        return Bits(Vector256.Equals(low, wanted), Vector256.Equals(high, wanted));
    }

    private static ulong Bits(Vector256<byte> low, Vector256<byte> high) => low.ExtractMostSignificantBits() | ((ulong)high.ExtractMostSignificantBits() << 32);
}
