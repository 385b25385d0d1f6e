namespace StrokeWatch.Samples.Csv;

/// <summary>Reads times of the clock: ISO 8601 dates with time, and times of day alone, as seconds with nine decimals.</summary>
internal static class TimestampText
{
    /// <summary>Reads <c>2024-05-01T10:00:00.123456Z</c>, with a space or slashes instead, with an offset, or <c>10:00:00.123</c>.</summary>
    public static bool TryRead(ReadOnlySpan<byte> text, out DecimalNumber seconds)
    {
        seconds = default;
        long days = 0;
        if (text.Length >= 11 && text[4] is (byte)'-' or (byte)'/' && text[7] == text[4])
        {
            if (!Digits(text, 0, 4, out var year) || !Digits(text, 5, 2, out var month) || !Digits(text, 8, 2, out var day)
                || text[10] is not ((byte)'T' or (byte)'t' or (byte)' ') || year < 1 || month is < 1 or > 12
                || day < 1 || day > DateTime.DaysInMonth(year, month))
            {
                return false;
            }

            days = new DateOnly(year, month, day).DayNumber;
            text = text[11..];
        }

        if (!TryReadClock(text, out var nanoseconds, out var used) || !TryReadOffset(text[used..], out var offset))
        {
            return false;
        }

        var total = (((Int128)days * 86_400) - offset) * 1_000_000_000 + nanoseconds;
        seconds = new DecimalNumber((ulong)(total < 0 ? -total : total), -9, total < 0);
        return true;
    }

    private static bool TryReadClock(ReadOnlySpan<byte> text, out long nanoseconds, out int used)
    {
        nanoseconds = 0;
        used = 8;
        if (text.Length < 8 || text[2] != ':' || text[5] != ':' || !Digits(text, 0, 2, out var hour)
            || !Digits(text, 3, 2, out var minute) || !Digits(text, 6, 2, out var second) || hour > 24 || minute > 59 || second > 60)
        {
            return false;
        }

        long fraction = 0;
        if (used < text.Length && text[used] is (byte)'.' or (byte)',')
        {
            long place = 100_000_000;
            for (used++; used < text.Length && (uint)(text[used] - '0') <= 9; used++)
            {
                fraction += place * (text[used] - '0');
                place /= 10;
            }
        }

        nanoseconds = ((((hour * 60L) + minute) * 60 + second) * 1_000_000_000) + fraction;
        return true;
    }

    private static bool TryReadOffset(ReadOnlySpan<byte> text, out long seconds)
    {
        seconds = 0;
        text = text.TrimStart((byte)' ');
        if (text.IsEmpty || text is [(byte)'Z' or (byte)'z'])
        {
            return true;
        }

        if (text[0] is not ((byte)'+' or (byte)'-') || !Digits(text, 1, 2, out var hours))
        {
            return false;
        }

        var minutes = 0;
        if (text.Length > 3 && !Digits(text, text[3] == ':' ? 4 : 3, 2, out minutes))
        {
            return false;
        }

        seconds = ((hours * 60L) + minutes) * (text[0] == '-' ? -60 : 60);
        return true;
    }

    private static bool Digits(ReadOnlySpan<byte> text, int at, int count, out int value)
    {
        value = 0;
        if (at + count > text.Length)
        {
            return false;
        }

        foreach (var b in text.Slice(at, count))
        {
            if ((uint)(b - '0') > 9)
            {
                return false;
            }

            value = (value * 10) + b - '0';
        }

        return true;
    }
}
