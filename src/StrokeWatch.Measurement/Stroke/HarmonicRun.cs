using System.Numerics;

namespace StrokeWatch.Measurement.Stroke;

/// <summary>Values and slopes of a sum of harmonics at every sample of a window, several samples at a time.</summary>
internal static class HarmonicRun
{
    /// <summary>How many steps the recurrence of cosines and sines goes before it starts anew, so that rounding cannot pile up.</summary>
    private const int Stretch = 128;

    /// <summary>Fills cosine and sine of the fundamental's phase at each sample.</summary>
    /// <param name="frequency">The fundamental in cycles a sample.</param>
    /// <param name="places">The places of the samples; empty where they are evenly spaced about the middle.</param>
    /// <param name="cos">Takes the cosines, one a sample.</param>
    /// <param name="sin">Takes the sines.</param>
    public static void Phases(double frequency, ReadOnlySpan<double> places, Span<double> cos, Span<double> sin)
    {
        var count = cos.Length;
        var n = 0;
        if (places.IsEmpty)
        {
            var (lanes, origin) = (Vector<double>.Count, 0.5 * (count - 1));
            var step = Turn.By(frequency, lanes);
            Turn turn = default;
            for (var i = 0; n <= count - lanes; i++, n += lanes)
            {
                turn = i % Stretch == 0 ? Turn.At(frequency, n - origin) : turn * step;
                turn.Cos.CopyTo(cos[n..]);
                turn.Sin.CopyTo(sin[n..]);
            }
        }

        for (; n < count; n++)
        {
            (sin[n], cos[n]) = Math.SinCos(2 * Math.PI * frequency * (places.IsEmpty ? n - 0.5 * (count - 1) : places[n]));
        }
    }

    /// <summary>Takes a constant and harmonics off a signal.</summary>
    /// <param name="line">The signal, one value a sample.</param>
    /// <param name="cosines">Coefficients c, index 0 the constant.</param>
    /// <param name="sines">Coefficients s, index 0 unused.</param>
    /// <param name="cos">cos φ at each sample.</param>
    /// <param name="sin">sin φ at each sample.</param>
    /// <param name="left">Takes what is left.</param>
    public static void TakeOff(
        ReadOnlySpan<double> line, ReadOnlySpan<double> cosines, ReadOnlySpan<double> sines, ReadOnlySpan<double> cos, ReadOnlySpan<double> sin, Span<double> left)
    {
        var lanes = Vector<double>.Count;
        var (n, constant) = (0, new Vector<double>(cosines[0]));
        for (; n <= line.Length - 2 * lanes; n += 2 * lanes)
        {
            // Two vectors side by side: Horner's sum waits for itself, two of them need not wait for each other.
            var (cosA, sinA, cosB, sinB) = (new Vector<double>(cos[n..]), new Vector<double>(sin[n..]), new Vector<double>(cos[(n + lanes)..]), new Vector<double>(sin[(n + lanes)..]));
            Vector<double> reA = default, imA = default, reB = default, imB = default;
            for (var k = cosines.Length - 1; k >= 1; k--)
            {
                var (c, s) = (new Vector<double>(cosines[k]), new Vector<double>(sines[k]));
                (reA, imA, reB, imB) = (reA + c, imA - s, reB + c, imB - s);
                var (turnedA, turnedB) = (imA * sinA, imB * sinB);
                (imA, imB) = (Vector.MultiplyAddEstimate(reA, sinA, imA * cosA), Vector.MultiplyAddEstimate(reB, sinB, imB * cosB));
                (reA, reB) = (reA * cosA - turnedA, reB * cosB - turnedB);
            }

            (new Vector<double>(line[n..]) - constant - reA).CopyTo(left[n..]);
            (new Vector<double>(line[(n + lanes)..]) - constant - reB).CopyTo(left[(n + lanes)..]);
        }

        for (; n < line.Length; n++)
        {
            left[n] = line[n] - HarmonicValue.At(cosines, sines, cosines.Length - 1, cos[n], sin[n]);
        }
    }

    /// <summary>Gives the derivative of harmonics by the fundamental's phase at each sample, times a factor.</summary>
    /// <param name="cosines">Coefficients c, index 0 unused.</param>
    /// <param name="sines">Coefficients s, index 0 unused.</param>
    /// <param name="factor">The factor.</param>
    /// <param name="cos">cos φ at each sample.</param>
    /// <param name="sin">sin φ at each sample.</param>
    /// <param name="slopes">Takes the slopes.</param>
    public static void Slopes(ReadOnlySpan<double> cosines, ReadOnlySpan<double> sines, double factor, ReadOnlySpan<double> cos, ReadOnlySpan<double> sin, Span<double> slopes)
    {
        var lanes = Vector<double>.Count;
        var n = 0;
        for (; n <= cos.Length - lanes; n += lanes)
        {
            var (c, s) = (new Vector<double>(cos[n..]), new Vector<double>(sin[n..]));
            Vector<double> re = default, im = default;
            for (var k = cosines.Length - 1; k >= 1; k--)
            {
                var (a, b) = (re + new Vector<double>(k * sines[k]), im + new Vector<double>(k * cosines[k]));
                (re, im) = (a * c - b * s, Vector.MultiplyAddEstimate(a, s, b * c));
            }

            (re * factor).CopyTo(slopes[n..]);
        }

        for (; n < cos.Length; n++)
        {
            slopes[n] = factor * HarmonicValue.SlopeAt(cosines, sines, cosines.Length - 1, cos[n], sin[n]);
        }
    }
}
