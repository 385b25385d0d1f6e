using System.Numerics;
using System.Runtime.InteropServices;

namespace StrokeWatch.Measurement.Stroke;

/// <summary>Correlates up to three axes with cosine and sine of one frequency at once.</summary>
internal static class HarmonicSums
{
    /// <summary>Adds up Σ y cos 2πft and Σ y sin 2πft, t counted from the middle of the window.</summary>
    /// <param name="axes">One array an axis; each is read from <paramref name="start"/> for <paramref name="count"/> samples.</param>
    /// <param name="start">First sample.</param>
    /// <param name="count">Number of samples.</param>
    /// <param name="frequency">Frequency in cycles a sample.</param>
    /// <param name="cosines">Takes the cosine sums, one an axis.</param>
    /// <param name="sines">Takes the sine sums, one an axis.</param>
    public static void Correlate(
        double[][] axes, int start, int count, double frequency, Span<double> cosines, Span<double> sines)
    {
        for (var first = 0; first < axes.Length; first += 3)
        {
            Three(axes, first, Math.Min(3, axes.Length - first), start, count, frequency, cosines, sines);
        }
    }

    private static void Three(
        double[][] axes, int first, int used, int start, int count, double frequency, Span<double> cosines, Span<double> sines)
    {
        var lanes = Vector<double>.Count;
        var origin = -0.5 * (count - 1);
        Span<double> seed = stackalloc double[4 * lanes];
        for (var i = 0; i < 2 * lanes; i++)
        {
            var (sin, cos) = Math.SinCos(2 * Math.PI * frequency * (origin + i));
            seed[i] = cos;
            seed[2 * lanes + i] = sin;
        }

        var cosA = new Vector<double>(seed);
        var cosB = new Vector<double>(seed[lanes..]);
        var sinA = new Vector<double>(seed[(2 * lanes)..]);
        var sinB = new Vector<double>(seed[(3 * lanes)..]);
        var (stepSin, stepCos) = Math.SinCos(2 * Math.PI * frequency * 2 * lanes);
        Vector<double> c0 = default, s0 = default, c1 = default, s1 = default, c2 = default, s2 = default;
        var y0 = MemoryMarshal.Cast<double, Vector<double>>(axes[first].AsSpan(start, count));
        var y1 = used > 1 ? MemoryMarshal.Cast<double, Vector<double>>(axes[first + 1].AsSpan(start, count)) : y0;
        var y2 = used > 2 ? MemoryMarshal.Cast<double, Vector<double>>(axes[first + 2].AsSpan(start, count)) : y0;
        var pairs = y0.Length / 2;
        for (var i = 0; i < pairs; i++)
        {
            var j = 2 * i;
            c0 += y0[j] * cosA + y0[j + 1] * cosB;
            s0 += y0[j] * sinA + y0[j + 1] * sinB;
            c1 += y1[j] * cosA + y1[j + 1] * cosB;
            s1 += y1[j] * sinA + y1[j + 1] * sinB;
            c2 += y2[j] * cosA + y2[j + 1] * cosB;
            s2 += y2[j] * sinA + y2[j + 1] * sinB;
            (cosA, sinA) = (cosA * stepCos - sinA * stepSin, sinA * stepCos + cosA * stepSin);
            (cosB, sinB) = (cosB * stepCos - sinB * stepSin, sinB * stepCos + cosB * stepSin);
        }

        Span<double> sums = [Vector.Sum(c0), Vector.Sum(s0), Vector.Sum(c1), Vector.Sum(s1), Vector.Sum(c2), Vector.Sum(s2)];
        for (var n = 2 * lanes * pairs; n < count; n++)
        {
            var (sin, cos) = Math.SinCos(2 * Math.PI * frequency * (origin + n));
            for (var a = 0; a < used; a++)
            {
                sums[2 * a] += axes[first + a][start + n] * cos;
                sums[2 * a + 1] += axes[first + a][start + n] * sin;
            }
        }

        for (var a = 0; a < used; a++)
        {
            cosines[first + a] = sums[2 * a];
            sines[first + a] = sums[2 * a + 1];
        }
    }
}
