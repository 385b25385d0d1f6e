using System.Numerics;
using System.Runtime.InteropServices;

namespace StrokeWatch.Samples.Wav;

/// <summary>Finds numbers that are none.</summary>
internal static class Finite
{
    private const int FloatSize = int.MaxValue;
    private const int FloatInfinity = 0x7F80_0000;

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

    /// <summary>Says whether all floats of a run of bytes, the least significant first, are finite: without its sign a float sorts as its bits do.</summary>
    public static bool AllFloats(ReadOnlySpan<byte> bytes)
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

        var finite = Vector.LessThanAll(Vector.Max(a, b), new Vector<int>(FloatInfinity));
        for (var n = i * Vector<int>.Count; n < bits.Length && finite; n++)
        {
            finite = (bits[n] & FloatSize) < FloatInfinity;
        }

        return finite;
    }
}
