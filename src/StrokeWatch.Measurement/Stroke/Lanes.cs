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
            // Two of each side by side: one comparison need not wait for the one before.
            Vector<double> low = wide[0], high = wide[0], otherLow = wide[^1], otherHigh = wide[^1];
            for (var i = 0; i + 1 < wide.Length; i += 2)
            {
                (low, high) = (Vector.MinNative(low, wide[i]), Vector.MaxNative(high, wide[i]));
                (otherLow, otherHigh) = (Vector.MinNative(otherLow, wide[i + 1]), Vector.MaxNative(otherHigh, wide[i + 1]));
            }

            (low, high) = (Vector.MinNative(low, otherLow), Vector.MaxNative(high, otherHigh));
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

    /// <summary>Counts the values that equal one, and those that equal another.</summary>
    public static (int First, int Second) CountEqual(ReadOnlySpan<double> values, double first, double second)
    {
        var wide = MemoryMarshal.Cast<double, Vector<double>>(values);
        Vector<long> firsts = default, seconds = default;
        var (one, other) = (new Vector<double>(first), new Vector<double>(second));
        foreach (var value in wide)
        {
            // A lane that is equal holds minus one.
            firsts -= Vector.Equals(value, one);
            seconds -= Vector.Equals(value, other);
        }

        var (countOne, countOther) = ((int)Vector.Sum(firsts), (int)Vector.Sum(seconds));
        for (var n = wide.Length * Vector<double>.Count; n < values.Length; n++)
        {
            countOne += values[n] == first ? 1 : 0;
            countOther += values[n] == second ? 1 : 0;
        }

        return (countOne, countOther);
    }

    /// <summary>Sets target to weight times source.</summary>
    public static void Weigh(ReadOnlySpan<double> source, double weight, Span<double> target)
    {
        var from = MemoryMarshal.Cast<double, Vector<double>>(source);
        var to = MemoryMarshal.Cast<double, Vector<double>>(target);
        for (var i = 0; i < from.Length && i < to.Length; i++)
        {
            to[i] = from[i] * weight;
        }

        for (var n = from.Length * Vector<double>.Count; n < source.Length; n++)
        {
            target[n] = weight * source[n];
        }
    }

    /// <summary>Sets target to the sum of three sources, each times its weight: one pass instead of three.</summary>
    public static void WeighThree(ReadOnlySpan<double> x, ReadOnlySpan<double> y, ReadOnlySpan<double> z, ReadOnlySpan<double> weights, Span<double> target)
    {
        var wideX = MemoryMarshal.Cast<double, Vector<double>>(x);
        var wideY = MemoryMarshal.Cast<double, Vector<double>>(y)[..wideX.Length];
        var wideZ = MemoryMarshal.Cast<double, Vector<double>>(z)[..wideX.Length];
        var to = MemoryMarshal.Cast<double, Vector<double>>(target)[..wideX.Length];
        var (a, b, c) = (new Vector<double>(weights[0]), new Vector<double>(weights[1]), new Vector<double>(weights[2]));
        for (var i = 0; i < wideX.Length; i++)
        {
            to[i] = wideX[i] * a + wideY[i] * b + wideZ[i] * c;
        }

        for (var n = wideX.Length * Vector<double>.Count; n < x.Length; n++)
        {
            target[n] = weights[0] * x[n] + weights[1] * y[n] + weights[2] * z[n];
        }
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

    /// <summary>Adds the squares of source to target.</summary>
    public static void AddSquares(ReadOnlySpan<double> source, Span<double> target)
    {
        var from = MemoryMarshal.Cast<double, Vector<double>>(source);
        var to = MemoryMarshal.Cast<double, Vector<double>>(target);
        for (var i = 0; i < from.Length; i++)
        {
            to[i] += from[i] * from[i];
        }

        for (var n = from.Length * Vector<double>.Count; n < source.Length; n++)
        {
            target[n] += source[n] * source[n];
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
