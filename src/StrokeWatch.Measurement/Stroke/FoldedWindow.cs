using System.Numerics;
using System.Runtime.InteropServices;

namespace StrokeWatch.Measurement.Stroke;

/// <summary>
/// A window folded about its middle: y(t) + y(−t), which alone meets the cosines, and y(t) − y(−t), which alone meets the sines. Half the work of an unfolded one.
/// </summary>
/// <remarks>It allocates only where a window is longer than every one before.</remarks>
internal sealed class FoldedWindow(int axes)
{
    /// <summary>How many steps the recurrence of cosines and sines goes before it starts anew, so that rounding cannot pile up.</summary>
    private const int Stretch = 512;

    private const int MostAxes = 64;

    [ThreadStatic]
    private static FoldedWindow?[]? ofThread;

    private readonly double[][] even = [.. Enumerable.Range(0, axes).Select(_ => Array.Empty<double>())];
    private readonly double[][] odd = [.. Enumerable.Range(0, axes).Select(_ => Array.Empty<double>())];
    private double[] mirrored = [];
    private double firstTime;
    private int length;

    /// <summary>Gives the window of the calling thread, which all its fits use in turn: many sensors in one process then share the processor's cache better.</summary>
    /// <remarks>What is folded holds until the next fold on the same thread.</remarks>
    public static FoldedWindow OfThread(int axes)
    {
        ofThread ??= new FoldedWindow?[MostAxes + 1];
        return ofThread[axes] ??= new(axes);
    }

    /// <summary>Folds the samples less each axis's mean; times are counted in samples from the middle of the window.</summary>
    public void Fold(double[][] samples, int start, int count, ReadOnlySpan<double> means)
    {
        var half = count / 2;
        var middle = count - 2 * half;
        firstTime = 0.5 * (1 - middle);
        length = Padded(half + middle);
        Reserve(length);
        for (var a = 0; a < axes; a++)
        {
            var window = samples[a].AsSpan(start, count);
            var before = mirrored.AsSpan(0, half);
            window[..half].CopyTo(before);
            before.Reverse();
            var plus = even[a].AsSpan();
            var minus = odd[a].AsSpan();
            if (middle > 0)
            {
                (plus[0], minus[0]) = (window[half] - means[a], 0);
            }

            Combine(window[(half + middle)..], before, 2 * means[a], plus[middle..], minus[middle..]);
            plus[(half + middle)..length].Clear();
            minus[(half + middle)..length].Clear();
        }
    }

    /// <summary>Adds up Σ y cos 2πkνt and Σ y sin 2πkνt for the orders k from 1 on.</summary>
    /// <param name="frequency">The fundamental ν in cycles a sample.</param>
    /// <param name="orders">The highest order.</param>
    /// <param name="cosines">Takes the cosine sums: one array an axis, index the order.</param>
    /// <param name="sines">Takes the sine sums likewise.</param>
    public void Correlate(double frequency, int orders, double[][] cosines, double[][] sines)
    {
        for (var a = 0; a < axes; a++)
        {
            cosines[a].AsSpan(0, orders + 1).Clear();
            sines[a].AsSpan(0, orders + 1).Clear();
        }

        var step = 2 * Vector<double>.Count;
        for (var from = 0; from < length; from += Stretch * step)
        {
            var count = Math.Min(Stretch * step, length - from);
            for (var first = 0; first < axes; first += 3)
            {
                Orders(frequency, orders, from, count, first, cosines, sines);
            }
        }
    }

    private static int Padded(int count)
    {
        var step = 2 * Vector<double>.Count;
        return (count + step - 1) / step * step;
    }

    private static void Combine(ReadOnlySpan<double> after, ReadOnlySpan<double> before, double twiceMean, Span<double> plus, Span<double> minus)
    {
        var lanes = Vector<double>.Count;
        var mean = new Vector<double>(twiceMean);
        var count = after.Length;
        before = before[..count];
        plus = plus[..count];
        minus = minus[..count];

        // The checks are made once, above: this pass is a tenth of the fit.
        ref var later = ref MemoryMarshal.GetReference(after);
        ref var earlier = ref MemoryMarshal.GetReference(before);
        ref var sums = ref MemoryMarshal.GetReference(plus);
        ref var differences = ref MemoryMarshal.GetReference(minus);
        var n = 0;
        for (; n <= count - lanes; n += lanes)
        {
            var (a, b) = (Vector.LoadUnsafe(ref later, (nuint)n), Vector.LoadUnsafe(ref earlier, (nuint)n));
            (a + b - mean).StoreUnsafe(ref sums, (nuint)n);
            (a - b).StoreUnsafe(ref differences, (nuint)n);
        }

        for (; n < count; n++)
        {
            (plus[n], minus[n]) = (after[n] + before[n] - twiceMean, after[n] - before[n]);
        }
    }

    private void Reserve(int wanted)
    {
        if (mirrored.Length >= wanted)
        {
            return;
        }

        mirrored = new double[wanted];
        for (var a = 0; a < axes; a++)
        {
            (even[a], odd[a]) = (new double[wanted], new double[wanted]);
        }
    }

    private void Orders(double frequency, int orders, int from, int count, int first, double[][] cosines, double[][] sines)
    {
        var lanes = Vector<double>.Count;
        var start = firstTime + from;
        var oneA = Turn.At(frequency, start);
        var (ahead, back) = (Turn.By(frequency, lanes), Turn.By(frequency, -lanes));
        var oneB = oneA * ahead;
        var onePastB = oneA * back;
        var onePastA = onePastB * back;
        var (stepSin, stepCos) = Math.SinCos(2 * Math.PI * frequency * 2 * lanes);
        var (a, b, pastA, pastB) = (oneA, oneB, onePastA, onePastB);
        var (turnCos, turnSin) = (stepCos, stepSin);
        var second = Math.Min(first + 1, axes - 1);
        var third = Math.Min(first + 2, axes - 1);
        for (var k = 1; k <= orders; k++)
        {
            var (c, s) = HarmonicSums.Three(
                even[first].AsSpan(from, count), even[second].AsSpan(from, count), even[third].AsSpan(from, count),
                odd[first].AsSpan(from, count), odd[second].AsSpan(from, count), odd[third].AsSpan(from, count),
                2 * turnCos, a, b, pastA, pastB);
            Add(cosines, first, k, c);
            Add(sines, first, k, s);
            (a, b, pastA, pastB) = (a * oneA, b * oneB, pastA * onePastA, pastB * onePastB);
            (turnCos, turnSin) = (turnCos * stepCos - turnSin * stepSin, turnSin * stepCos + turnCos * stepSin);
        }
    }

    private void Add(double[][] sums, int first, int order, (double X, double Y, double Z) values)
    {
        sums[first][order] += values.X;
        if (first + 1 < axes)
        {
            sums[first + 1][order] += values.Y;
        }

        if (first + 2 < axes)
        {
            sums[first + 2][order] += values.Z;
        }
    }
}
