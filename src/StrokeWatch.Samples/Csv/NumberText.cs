using System.Buffers.Binary;
using System.Globalization;

namespace StrokeWatch.Samples.Csv;

/// <summary>Reads numbers from bytes without allocating, to the last bit of a double.</summary>
internal static class NumberText
{
    /// <summary>The most digits that 64 bits hold for certain.</summary>
    private const int MostDigits = 19;

    /// <summary>Reads the number at the start of the text and says how many bytes it takes; false where none stands there.</summary>
    public static bool TryRead(ReadOnlySpan<byte> text, bool commaIsMark, out DecimalNumber number, out int length)
    {
        ulong mantissa = 0;
        int exponent = 0, i = 0;
        var negative = false;
        if (text.Length > 0 && text[0] is (byte)'-' or (byte)'+')
        {
            negative = text[0] == (byte)'-';
            i = 1;
        }

        var first = i;
        uint digit;
        for (; i < text.Length && (digit = (uint)(text[i] - '0')) <= 9; i++)
        {
            mantissa = unchecked((mantissa * 10) + digit);
        }

        var any = i > first;
        var places = i - first;
        if (i < text.Length && (text[i] == (byte)'.' || (commaIsMark && text[i] == (byte)',')))
        {
            var fraction = ++i;
            while (i + 8 <= text.Length && TryEight(text.Slice(i, 8), out var eight))
            {
                mantissa = unchecked((mantissa * 100_000_000) + eight);
                i += 8;
            }

            for (; i < text.Length && (digit = (uint)(text[i] - '0')) <= 9; i++)
            {
                mantissa = unchecked((mantissa * 10) + digit);
            }

            exponent = fraction - i;
            any |= i > fraction;
            places += i - fraction;
        }

        var cut = false;
        if (places > MostDigits)
        {
            // The product may have run over; leading zeros take places too, so only now are the digits counted exactly.
            mantissa = ReadLong(text[first..i], out exponent, out cut);
        }

        if (any && i < text.Length && (text[i] | 0x20) == 'e')
        {
            i += ReadExponent(text[i..], ref exponent);
        }

        number = new DecimalNumber(mantissa, exponent, negative, cut);
        length = i;
        return any;
    }

    /// <summary>Gives the double of a number that <see cref="TryRead"/> took from exactly this text.</summary>
    public static double ToDouble(ReadOnlySpan<byte> text, in DecimalNumber number)
    {
        if (number.TryExact(out var value))
        {
            return value;
        }

        if (!number.IsCut && NearestDouble.TryRound(number.Mantissa, number.Exponent, out value))
        {
            return number.Negative ? -value : value;
        }

        Span<byte> plain = text.Length <= 128 ? stackalloc byte[text.Length] : new byte[text.Length];
        text.CopyTo(plain);
        var comma = plain.IndexOf((byte)',');
        if (comma >= 0)
        {
            plain[comma] = (byte)'.';
        }

        return double.TryParse(plain, NumberStyles.Float, CultureInfo.InvariantCulture, out value) ? value : double.NaN;
    }

    /// <summary>Says whether a cell is one of the words that programs write for a number that is none.</summary>
    public static bool IsNanOrInfinite(ReadOnlySpan<byte> cell)
    {
        if (cell.Length > 0 && cell[0] is (byte)'-' or (byte)'+')
        {
            cell = cell[1..];
        }

        return Is(cell, "nan"u8) || Is(cell, "inf"u8) || Is(cell, "infinity"u8) || cell.StartsWith("1.#"u8) || Is(cell, "nan(ind)"u8)
            || cell.SequenceEqual("\u221e"u8);
    }

    /// <summary>Reads eight digits at once where there are eight (D. Lemire's test, from memory).</summary>
    private static bool TryEight(ReadOnlySpan<byte> text, out uint value)
    {
        var word = BinaryPrimitives.ReadUInt64LittleEndian(text);
        value = 0;
        if (((word & 0xF0F0_F0F0_F0F0_F0F0) | (((word + 0x0606_0606_0606_0606) & 0xF0F0_F0F0_F0F0_F0F0) >> 4)) != 0x3333_3333_3333_3333)
        {
            return false;
        }

        value = (uint)SixteenDigits.Eight(word - 0x3030_3030_3030_3030);
        return true;
    }

    private static ulong ReadLong(ReadOnlySpan<byte> text, out int exponent, out bool cut)
    {
        ulong mantissa = 0;
        var (digits, mark) = (0, false);
        (exponent, cut) = (0, false);
        foreach (var b in text)
        {
            var digit = (uint)(b - '0');
            if (digit > 9)
            {
                mark = true;
            }
            else if (digits < MostDigits)
            {
                mantissa = (mantissa * 10) + digit;
                digits += mantissa != 0 ? 1 : 0;
                exponent -= mark ? 1 : 0;
            }
            else
            {
                cut |= digit != 0;
                exponent += mark ? 0 : 1;
            }
        }

        return mantissa;
    }

    private static bool Is(ReadOnlySpan<byte> cell, ReadOnlySpan<byte> word) => System.Text.Ascii.EqualsIgnoreCase(cell, word);

    private static int ReadExponent(ReadOnlySpan<byte> text, ref int exponent)
    {
        var i = 1;
        var negative = false;
        if (i < text.Length && text[i] is (byte)'-' or (byte)'+')
        {
            negative = text[i] == (byte)'-';
            i++;
        }

        var (first, value) = (i, 0);
        for (; i < text.Length && (uint)(text[i] - '0') <= 9; i++)
        {
            value = Math.Min((value * 10) + text[i] - '0', 100_000);
        }

        if (i == first)
        {
            return 0;
        }

        exponent += negative ? -value : value;
        return i;
    }
}
