using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace StrokeWatch.Measurement.Impacts;

/// <summary>Reads evenly spaced values between samples by a cubic through four neighbours (Catmull and Rom's, from memory).</summary>
internal static class CubicCut
{
    /// <summary>Fills a run of values and gives the sum of their squares.</summary>
    /// <param name="samples">The samples.</param>
    /// <param name="at">Where the first value lies, in samples, at least 1.</param>
    /// <param name="step">How far the next one lies, in samples; the last must have two samples behind it.</param>
    /// <param name="into">Takes the values.</param>
    public static double Fill(ReadOnlySpan<double> samples, double at, double step, Span<double> into)
    {
        var last = at + (into.Length - 1) * step;
        ArgumentOutOfRangeException.ThrowIfLessThan(at, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(last, samples.Length - 2);
        ref var from = ref MemoryMarshal.GetReference(samples);
        var squares = 0.0;
        var done = 0;
        if (Avx2.IsSupported)
        {
            (done, squares) = Fours(ref from, at, step, into);
        }

        for (var i = done; i < into.Length; i++)
        {
            var position = at + i * step;
            var n = (int)position;
            var x = position - n;
            double a = samples[n - 1], b = samples[n], c = samples[n + 1], d = samples[n + 2];
            var value = b + 0.5 * x * (c - a + x * (2 * a - 5 * b + 4 * c - d + x * (3 * (b - c) + d - a)));
            into[i] = value;
            squares += value * value;
        }

        return squares;
    }

    /// <summary>Four values at a time: each one's neighbours are one load, and four loads are turned about into the four terms of the cubic.</summary>
    private static (int Done, double Squares) Fours(ref double from, double at, double step, Span<double> into)
    {
        var (half, two, three, four, five) =
            (Vector256.Create(0.5), Vector256.Create(2.0), Vector256.Create(3.0), Vector256.Create(4.0), Vector256.Create(5.0));
        var steps = Vector256.Create(0.0, 1, 2, 3) * step;
        var squares = Vector256<double>.Zero;
        var i = 0;
        for (; i + 4 <= into.Length; i += 4)
        {
            var position = Vector256.Create(at + i * step) + steps;
            var whole = Avx.ConvertToVector128Int32WithTruncation(position);
            var x = position - Avx.ConvertToVector256Double(whole);
            var (r0, r1) = (Load(ref from, whole.GetElement(0)), Load(ref from, whole.GetElement(1)));
            var (r2, r3) = (Load(ref from, whole.GetElement(2)), Load(ref from, whole.GetElement(3)));
            var (ac0, bd0) = (Avx.UnpackLow(r0, r1), Avx.UnpackHigh(r0, r1));
            var (ac1, bd1) = (Avx.UnpackLow(r2, r3), Avx.UnpackHigh(r2, r3));
            var (a, c) = (Avx.Permute2x128(ac0, ac1, 0x20), Avx.Permute2x128(ac0, ac1, 0x31));
            var (b, d) = (Avx.Permute2x128(bd0, bd1, 0x20), Avx.Permute2x128(bd0, bd1, 0x31));
            var value = b + half * x * (c - a + x * (two * a - five * b + four * c - d + x * (three * (b - c) + d - a)));
            value.StoreUnsafe(ref MemoryMarshal.GetReference(into), (nuint)i);
            squares += value * value;
        }

        return (i, Vector256.Sum(squares));
    }

    private static Vector256<double> Load(ref double from, int whole) => Vector256.LoadUnsafe(ref Unsafe.Add(ref from, whole - 1));
}
