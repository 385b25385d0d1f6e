using System.Numerics;
using System.Runtime.InteropServices;

namespace StrokeWatch.Measurement.Stroke;

/// <summary>Sums, extremes and weighted sums of long runs, several numbers at a time.</summary>
internal static class Lanes
{
    /// <summary>Gives the mean, and the sum of squares about it (two passes: a small vibration on a large offset loses nothing).</summary>
    public static (double Mean, double Squares) Moments(ReadOnlySpan<double> values)
    {
        var mean = Sum(values) / values.Length;
        var wide = MemoryMarshal.Cast<double, Vector<double>>(values);
        Vector<double> a = default, b = default;
        var centre = new Vector<double>(mean);
        var i = 0;
        for (; i + 1 < wide.Length; i += 2)
        {
            var (x, y) = (wide[i] - centre, wide[i + 1] - centre);
            a += x * x;
            b += y * y;
        }

        var squares = Vector.Sum(a + b);
        for (var n = i * Vector<double>.Count; n < values.Length; n++)
        {
            squares += (values[n] - mean) * (values[n] - mean);
        }

        return (mean, squares);
    }

    /// <summary>Gives the smallest and the largest value.</summary>
    public static (double Least, double Most) Extremes(ReadOnlySpan<double> values)
    {
        var wide = MemoryMarshal.Cast<double, Vector<double>>(values);
        double least = values[0], most = values[0];
        if (wide.Length > 0)
        {
            Vector<double> low = wide[0], high = wide[0];
            foreach (var value in wide)
            {
                low = Vector.Min(low, value);
                high = Vector.Max(high, value);
            }

            for (var k = 0; k < Vector<double>.Count; k++)
            {
                (least, most) = (Math.Min(least, low[k]), Math.Max(most, high[k]));
            }
        }

        for (var n = wide.Length * Vector<double>.Count; n < values.Length; n++)
        {
            (least, most) = (Math.Min(least, values[n]), Math.Max(most, values[n]));
        }

        return (least, most);
    }

    /// <summary>Adds weight times source to target.</summary>
    public static void AddWeighted(ReadOnlySpan<double> source, double weight, Span<double> target)
    {
        var from = MemoryMarshal.Cast<double, Vector<double>>(source);
        var to = MemoryMarshal.Cast<double, Vector<double>>(target);
        for (var i = 0; i < from.Length; i++)
        {
            to[i] += from[i] * weight;
        }

        for (var n = from.Length * Vector<double>.Count; n < source.Length; n++)
        {
            target[n] += weight * source[n];
        }
    }

    private static double Sum(ReadOnlySpan<double> values)
    {
        var wide = MemoryMarshal.Cast<double, Vector<double>>(values);
        Vector<double> a = default, b = default;
        var i = 0;
        for (; i + 1 < wide.Length; i += 2)
        {
            a += wide[i];
            b += wide[i + 1];
        }

        var sum = Vector.Sum(a + b);
        for (var n = i * Vector<double>.Count; n < values.Length; n++)
        {
            sum += values[n];
        }

        return sum;
    }
}
