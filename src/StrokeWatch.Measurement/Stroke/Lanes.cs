using System.Numerics;
using System.Runtime.InteropServices;

namespace StrokeWatch.Measurement.Stroke;

/// <summary>Sums, extremes and weighted sums of long runs, several numbers at a time.</summary>
internal static class Lanes
{
    /// <summary>Gives the mean, and the sum of squares about it.</summary>
    /// <remarks>One pass about the first value: a small vibration on a large offset loses nothing, and as that value is one of them, at worst as many digits go as N has.</remarks>
    public static (double Mean, double Squares) Moments(ReadOnlySpan<double> values)
    {
        var wide = MemoryMarshal.Cast<double, Vector<double>>(values);
        Vector<double> a = default, b = default, squaresA = default, squaresB = default;
        var centre = new Vector<double>(values[0]);
        var i = 0;
        for (; i + 1 < wide.Length; i += 2)
        {
            var (x, y) = (wide[i] - centre, wide[i + 1] - centre);
            a += x;
            b += y;
            squaresA = Vector.MultiplyAddEstimate(x, x, squaresA);
            squaresB = Vector.MultiplyAddEstimate(y, y, squaresB);
        }

        var (sum, squares) = (Vector.Sum(a + b), Vector.Sum(squaresA + squaresB));
        for (var n = i * Vector<double>.Count; n < values.Length; n++)
        {
            var x = values[n] - values[0];
            (sum, squares) = (sum + x, squares + (x * x));
        }

        var off = sum / values.Length;
        return (values[0] + off, Math.Max(0, squares - (sum * off)));
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

    /// <summary>Sets target to the products of two runs.</summary>
    public static void Multiply(ReadOnlySpan<double> one, ReadOnlySpan<double> other, Span<double> target)
    {
        var n = 0;
        for (; n <= one.Length - Vector<double>.Count; n += Vector<double>.Count)
        {
            (new Vector<double>(one[n..]) * new Vector<double>(other[n..])).CopyTo(target[n..]);
        }

        for (; n < one.Length; n++)
        {
            target[n] = one[n] * other[n];
        }
    }

    /// <summary>Gives the sum of the products of two runs.</summary>
    public static double Dot(ReadOnlySpan<double> one, ReadOnlySpan<double> other)
    {
        var sum = Vector<double>.Zero;
        var n = 0;
        for (; n <= one.Length - Vector<double>.Count; n += Vector<double>.Count)
        {
            sum += new Vector<double>(one[n..]) * new Vector<double>(other[n..]);
        }

        var total = Vector.Sum(sum);
        for (; n < one.Length; n++)
        {
            total += one[n] * other[n];
        }

        return total;
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
}
