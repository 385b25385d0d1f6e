using System.Numerics;
using System.Runtime.InteropServices;

namespace StrokeWatch.Samples.Wav;

/// <summary>Finds numbers that are none.</summary>
internal static class Finite
{
    private const int FloatSize = int.MaxValue;

    /// <summary>Counts the finite numbers before the first that is NaN or infinite.</summary>
    public static int Count(ReadOnlySpan<double> values)
    {
        var i = 0;
        var limit = new Vector<double>(double.MaxValue);
        for (; i <= values.Length - Vector<double>.Count; i += Vector<double>.Count)
        {
            if (!Vector.LessThanOrEqualAll(Vector.Abs(new Vector<double>(values[i..])), limit))
            {
                break;
            }
        }

        while (i < values.Length && double.IsFinite(values[i]))
        {
            i++;
        }

        return i;
    }

    /// <summary>Gives the largest size of a run of floats in bytes, the least significant first; NaN or infinite where one of them is.</summary>
    /// <remarks>Without its sign a float sorts as its bits do.</remarks>
    public static float Largest(ReadOnlySpan<byte> bytes)
    {
        var bits = MemoryMarshal.Cast<byte, int>(bytes);
        var wide = MemoryMarshal.Cast<int, Vector<int>>(bits);
        var size = new Vector<int>(FloatSize);
        Vector<int> a = default, b = default;
        var i = 0;
        for (; i + 1 < wide.Length; i += 2)
        {
            (a, b) = (Vector.Max(wide[i] & size, a), Vector.Max(wide[i + 1] & size, b));
        }

        a = Vector.Max(a, b);
        var largest = 0;
        for (var lane = 0; lane < Vector<int>.Count; lane++)
        {
            largest = Math.Max(largest, a[lane]);
        }

        for (var n = i * Vector<int>.Count; n < bits.Length; n++)
        {
            largest = Math.Max(largest, bits[n] & FloatSize);
        }

        return BitConverter.Int32BitsToSingle(largest);
    }
}
