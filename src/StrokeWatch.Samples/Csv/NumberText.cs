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
        int digits = 0, exponent = 0, i = 0;
        var negative = false;
        var (any, mark) = (false, false);
        if (text.Length > 0 && text[0] is (byte)'-' or (byte)'+')
        {
            negative = text[0] == (byte)'-';
            i = 1;
        }

        for (; i < text.Length; i++)
        {
            var digit = (uint)(text[i] - '0');
            if (digit <= 9)
            {
                any = true;
                if (digits < MostDigits)
                {
                    mantissa = (mantissa * 10) + digit;
                    digits += mantissa != 0 ? 1 : 0;
                    exponent -= mark ? 1 : 0;
                }
                else
                {
                    exponent += mark ? 0 : 1;
                }
            }
            else if (!mark && (text[i] == (byte)'.' || (commaIsMark && text[i] == (byte)',')))
            {
                mark = true;
            }
            else
            {
                break;
            }
        }

        if (any && i < text.Length && (text[i] | 0x20) == 'e')
        {
            i += ReadExponent(text[i..], ref exponent);
        }

        number = new DecimalNumber(mantissa, exponent, negative);
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
