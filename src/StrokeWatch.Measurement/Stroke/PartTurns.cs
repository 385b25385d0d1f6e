using System.Numerics;

namespace StrokeWatch.Measurement.Stroke;

/// <summary>Cosines and sines of one frequency about the middle of a run of samples of one length.</summary>
internal readonly struct PartTurns
{
    private readonly Turn a;
    private readonly Turn b;
    private readonly Turn pastA;
    private readonly Turn pastB;
    private readonly double twiceCosine;
    private readonly double frequency;
    private readonly double firstTime;

    /// <summary>Makes them for a frequency in cycles a sample and a number of samples.</summary>
    public PartTurns(double frequency, int length)
    {
        var lanes = Vector<double>.Count;
        this.frequency = frequency;
        firstTime = -0.5 * (length - 1);
        a = Turn.At(frequency, firstTime);
        var (ahead, back) = (Turn.By(frequency, lanes), Turn.By(frequency, -lanes));
        b = a * ahead;
        pastB = a * back;
        pastA = pastB * back;
        twiceCosine = 2 * (2 * ahead.Cos[0] * ahead.Cos[0] - 1);
    }

    /// <summary>Adds up Σ y cos 2πνt and Σ y sin 2πνt of three runs of that length.</summary>
    public ((double X, double Y, double Z) Cosines, (double X, double Y, double Z) Sines) Correlate(
        ReadOnlySpan<double> x, ReadOnlySpan<double> y, ReadOnlySpan<double> z)
    {
        var (c, s) = HarmonicSums.Three(x, y, z, x, y, z, twiceCosine, a, b, pastA, pastB);
        var done = x.Length - x.Length % (2 * Vector<double>.Count);
        var (sin, cos) = Math.SinCos(2 * Math.PI * frequency * (firstTime + done));
        var (stepSin, stepCos) = Math.SinCos(2 * Math.PI * frequency);
        for (var n = done; n < x.Length; n++)
        {
            c = (c.X + x[n] * cos, c.Y + y[n] * cos, c.Z + z[n] * cos);
            s = (s.X + x[n] * sin, s.Y + y[n] * sin, s.Z + z[n] * sin);
            (cos, sin) = (cos * stepCos - sin * stepSin, sin * stepCos + cos * stepSin);
        }

        return (c, s);
    }
}
