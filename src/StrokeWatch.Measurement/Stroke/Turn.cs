using System.Numerics;

namespace StrokeWatch.Measurement.Stroke;

/// <summary>Cosine and sine at successive samples, one in each lane.</summary>
internal readonly record struct Turn(Vector<double> Cos, Vector<double> Sin)
{
    /// <summary>Gives cosine and sine of 2πνt for successive t, in samples.</summary>
    public static Turn At(double frequency, double firstTime)
    {
        var lanes = Vector<double>.Count;
        Span<double> cosines = stackalloc double[lanes];
        Span<double> sines = stackalloc double[lanes];
        for (var i = 0; i < lanes; i++)
        {
            (sines[i], cosines[i]) = Math.SinCos(2 * Math.PI * frequency * (firstTime + i));
        }

        return new(new Vector<double>(cosines), new Vector<double>(sines));
    }

    /// <summary>Gives the same angle in every lane: what a number of samples adds.</summary>
    public static Turn By(double frequency, double samples)
    {
        var (sin, cos) = Math.SinCos(2 * Math.PI * frequency * samples);
        return new(new Vector<double>(cos), new Vector<double>(sin));
    }

    /// <summary>Adds the angles up.</summary>
    public static Turn operator *(Turn a, Turn b) => new(a.Cos * b.Cos - a.Sin * b.Sin, a.Sin * b.Cos + a.Cos * b.Sin);
}
