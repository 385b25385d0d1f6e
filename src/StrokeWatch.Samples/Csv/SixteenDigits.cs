using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace StrokeWatch.Samples.Csv;

/// <summary>Adds up the digits of one register, sixteen or eight: neighbours, pairs, fours, eights.</summary>
internal static class SixteenDigits
{
    /// <summary>Gives the number that sixteen digits from 0 to 9 make, the first in the lowest byte.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static ulong Sum(Vector128<byte> digits)
    {
        if (!Sse41.IsSupported)
        {
            return (Eight(digits.AsUInt64()[0]) * 100_000_000) + Eight(digits.AsUInt64()[1]);
        }

        var twos = Ssse3.MultiplyAddAdjacent(digits, Vector128.Create((ushort)0x010A).AsSByte());
        var fours = Sse2.MultiplyAddAdjacent(twos, Vector128.Create(0x0001_0064).AsInt16());
        var packed = Sse41.PackUnsignedSaturate(fours, fours).AsInt16();
        var eights = Sse2.MultiplyAddAdjacent(packed, Vector128.Create(0x0001_2710).AsInt16()).AsUInt64().ToScalar();
        return ((uint)eights * 100_000_000UL) + (eights >> 32);
    }

    /// <summary>Gets the number that eight digits from 0 to 9 make, the first in the lowest byte: sums of neighbours, of pairs, of fours (D. Lemire, from memory).</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static ulong Eight(ulong word)
    {
        word = (word * 10) + (word >> 8);
        const ulong mask = 0x0000_00FF_0000_00FF;
        return (((word & mask) * 0x000F_4240_0000_0064) + (((word >> 16) & mask) * 0x0000_2710_0000_0001)) >> 32;
    }
}
