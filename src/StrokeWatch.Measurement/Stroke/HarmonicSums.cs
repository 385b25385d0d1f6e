using System.Numerics;
using System.Runtime.InteropServices;

namespace StrokeWatch.Measurement.Stroke;

/// <summary>Correlates three runs of samples with a cosine, and three with a sine, of one frequency at once.</summary>
internal static class HarmonicSums
{
    /// <summary>Adds up Σ e cos φ and Σ o sin φ over whole pairs of vectors; what is left at the end is the caller's.</summary>
    /// <remarks>Two vectors side by side, with where each stood one step before: cos(φ + δ) = 2 cos δ cos φ − cos(φ − δ), and so the sine.</remarks>
    /// <param name="even0">What meets the cosine, first of three; all six are of one length.</param>
    /// <param name="even1">The second.</param>
    /// <param name="even2">The third.</param>
    /// <param name="odd0">What meets the sine, first of three.</param>
    /// <param name="odd1">The second.</param>
    /// <param name="odd2">The third.</param>
    /// <param name="twiceCosine">Twice the cosine of the angle passed in two vectors of samples.</param>
    /// <param name="a">The angles of the first vector.</param>
    /// <param name="b">The angles of the second.</param>
    /// <param name="pastA">The angles two vectors before the first.</param>
    /// <param name="pastB">The angles two vectors before the second.</param>
    public static ((double X, double Y, double Z) Cosines, (double X, double Y, double Z) Sines) Three(
        ReadOnlySpan<double> even0, ReadOnlySpan<double> even1, ReadOnlySpan<double> even2,
        ReadOnlySpan<double> odd0, ReadOnlySpan<double> odd1, ReadOnlySpan<double> odd2,
        double twiceCosine, in Turn a, in Turn b, in Turn pastA, in Turn pastB)
    {
        var e0 = MemoryMarshal.Cast<double, Vector<double>>(even0);
        var e1 = MemoryMarshal.Cast<double, Vector<double>>(even1)[..e0.Length];
        var e2 = MemoryMarshal.Cast<double, Vector<double>>(even2)[..e0.Length];
        var o0 = MemoryMarshal.Cast<double, Vector<double>>(odd0)[..e0.Length];
        var o1 = MemoryMarshal.Cast<double, Vector<double>>(odd1)[..e0.Length];
        var o2 = MemoryMarshal.Cast<double, Vector<double>>(odd2)[..e0.Length];
        Vector<double> c0 = default, c1 = default, c2 = default, s0 = default, s1 = default, s2 = default;
        var (ca, cb, pastCa, pastCb) = (a.Cos, b.Cos, pastA.Cos, pastB.Cos);
        var (sa, sb, pastSa, pastSb) = (a.Sin, b.Sin, pastA.Sin, pastB.Sin);
        var twice = new Vector<double>(twiceCosine);
        for (var i = 0; i + 1 < e0.Length; i += 2)
        {
            c0 = Vector.MultiplyAddEstimate(e0[i], ca, c0);
            c1 = Vector.MultiplyAddEstimate(e1[i], ca, c1);
            c2 = Vector.MultiplyAddEstimate(e2[i], ca, c2);
            s0 = Vector.MultiplyAddEstimate(o0[i], sa, s0);
            s1 = Vector.MultiplyAddEstimate(o1[i], sa, s1);
            s2 = Vector.MultiplyAddEstimate(o2[i], sa, s2);
            c0 = Vector.MultiplyAddEstimate(e0[i + 1], cb, c0);
            c1 = Vector.MultiplyAddEstimate(e1[i + 1], cb, c1);
            c2 = Vector.MultiplyAddEstimate(e2[i + 1], cb, c2);
            s0 = Vector.MultiplyAddEstimate(o0[i + 1], sb, s0);
            s1 = Vector.MultiplyAddEstimate(o1[i + 1], sb, s1);
            s2 = Vector.MultiplyAddEstimate(o2[i + 1], sb, s2);
            var (nextCa, nextCb) = (Vector.MultiplyAddEstimate(twice, ca, -pastCa), Vector.MultiplyAddEstimate(twice, cb, -pastCb));
            var (nextSa, nextSb) = (Vector.MultiplyAddEstimate(twice, sa, -pastSa), Vector.MultiplyAddEstimate(twice, sb, -pastSb));
            (pastCa, pastCb, pastSa, pastSb) = (ca, cb, sa, sb);
            (ca, cb, sa, sb) = (nextCa, nextCb, nextSa, nextSb);
        }

        return ((Vector.Sum(c0), Vector.Sum(c1), Vector.Sum(c2)), (Vector.Sum(s0), Vector.Sum(s1), Vector.Sum(s2)));
    }
}
