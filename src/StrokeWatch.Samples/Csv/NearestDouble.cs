using System.Numerics;

namespace StrokeWatch.Samples.Csv;

/// <summary>Rounds digits and a power of ten to the nearest double without the slow way through big numbers.</summary>
/// <remarks>
/// D. Lemire, Number parsing at a gigabyte per second, Software: Practice and Experience 51 (2021) 1700-1727, after M. Eisel (from memory): the
/// digits are multiplied by a 128-bit power of five, of which one half nearly always suffices to know the rounding. What it cannot decide is
/// left to the caller.
/// </remarks>
internal static class NearestDouble
{
    private const int LeastPower = -64, MostPower = 64;

    private static readonly UInt128[] FivesTable = Fives();

    /// <summary>Rounds; false where this way cannot tell.</summary>
    public static bool TryRound(ulong digits, int power, out double value)
    {
        value = 0;
        if (digits == 0 || power is < LeastPower or > MostPower)
        {
            return digits == 0;
        }

        var zeros = BitOperations.LeadingZeroCount(digits);
        var five = FivesTable[power - LeastPower];
        var high = Math.BigMul(digits << zeros, (ulong)(five >> 64), out var low);
        if ((high & 0x1FF) == 0x1FF)
        {
            var second = Math.BigMul(digits << zeros, (ulong)five, out _);
            low += second;
            high += second > low ? 1UL : 0;
            if (low == ulong.MaxValue)
            {
                return false;
            }
        }

        var top = (int)(high >> 63);
        var mantissa = high >> (top + 9);
        // log2 of five as a fraction of 65536, plus the power of two in ten.
        var exponent = ((217_706 * power) >> 16) + 63 + top - zeros + 1023;
        if (exponent is <= 0 or >= 2046)
        {
            return false;
        }

        if (low <= 1 && power is >= -4 and <= 23 && (mantissa & 3) == 1 && mantissa << (top + 9) == high)
        {
            // Exactly halfway: to even.
            mantissa &= ~1UL;
        }

        mantissa = (mantissa + (mantissa & 1)) >> 1;
        if (mantissa >= 1UL << 53)
        {
            mantissa = 1UL << 52;
            exponent++;
        }

        value = BitConverter.UInt64BitsToDouble((mantissa & ~(1UL << 52)) | ((ulong)exponent << 52));
        return true;
    }

    /// <summary>Works out the leading 128 bits of the powers of five, those below one rounded up.</summary>
    private static UInt128[] Fives()
    {
        var table = new UInt128[MostPower - LeastPower + 1];
        for (var power = LeastPower; power <= MostPower; power++)
        {
            var five = BigInteger.Pow(5, Math.Abs(power));
            var bits = (int)five.GetBitLength();
            var leading = power >= 0
                ? bits <= 128 ? five << (128 - bits) : five >> (bits - 128)
                : (BigInteger.One << (bits + 127)) / five + 1;
            table[power - LeastPower] = (UInt128)(leading >> Math.Max(0, (int)leading.GetBitLength() - 128));
        }

        return table;
    }
}
