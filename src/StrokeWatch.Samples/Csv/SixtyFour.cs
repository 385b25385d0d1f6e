using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace StrokeWatch.Samples.Csv;

/// <summary>What 64 bytes of text are, one bit a byte, the first byte in the lowest bit.</summary>
internal static class SixtyFour
{
    /// <summary>Marks the bytes that are this one.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static ulong Equal(ref byte first, byte what)
    {
        var wanted = Vector256.Create(what);
        return Join(Vector256.Equals(Vector256.LoadUnsafe(ref first), wanted), Vector256.Equals(Vector256.LoadUnsafe(ref first, 32), wanted));
    }

    /// <summary>Marks the bytes that are digits.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static ulong Digits(ref byte first)
    {
        var (zero, nine) = (Vector256.Create((byte)'0'), Vector256.Create((byte)9));
        return Join(Vector256.LessThanOrEqual(Vector256.LoadUnsafe(ref first) - zero, nine), Vector256.LessThanOrEqual(Vector256.LoadUnsafe(ref first, 32) - zero, nine));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static ulong Join(Vector256<byte> low, Vector256<byte> high) => low.ExtractMostSignificantBits() | ((ulong)high.ExtractMostSignificantBits() << 32);
}
