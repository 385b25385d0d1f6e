using System.Numerics;

namespace StrokeWatch.Samples.Wav;

/// <summary>Finds numbers that are none.</summary>
internal static class Finite
{
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
}
