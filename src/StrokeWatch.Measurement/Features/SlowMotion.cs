using System.Numerics;
using StrokeWatch.Measurement.Stroke;

namespace StrokeWatch.Measurement.Features;

/// <summary>
/// What of a window lies below the drive's frequency: sums over half cycles of the line acceleration, the fitted orders taken off by the closed form of their own
/// sums, so that none of them leaks.
/// </summary>
internal sealed class SlowMotion
{
    private const int MostParts = 256;
    private readonly double[] cosine;
    private readonly double[] sine;
    private readonly double[] left = new double[MostParts];
    private readonly double[] cos = new double[MostParts];
    private readonly double[] sin = new double[MostParts];
    private readonly double[] fitted = new double[MostParts];

    /// <summary>Makes room for a largest order.</summary>
    public SlowMotion(int largestOrder) => (cosine, sine) = (new double[largestOrder + 1], new double[largestOrder + 1]);

    /// <summary>Looks at a window; gives the r.m.s. of the slow remainder and the amplitudes at a half and a third of the drive's frequency, in m/s².</summary>
    /// <param name="line">The acceleration along the line, evenly spaced.</param>
    /// <param name="fit">The fit.</param>
    /// <param name="path">The line's harmonics.</param>
    public (double Slow, double Half, double Third) Look(ReadOnlySpan<double> line, IWindowHarmonics fit, LineHarmonics path)
    {
        var length = (int)Math.Round(0.5 / fit.Frequency);
        if (length < 1)
        {
            return (0, 0, 0);
        }

        var parts = Math.Min(MostParts, line.Length / length);
        Scale(fit, path, length);
        var squares = 0.0;
        var first = 0.5 * (length - 1) - 0.5 * (line.Length - 1);
        Fitted(parts, fit.Orders, Phasor(fit.Frequency, first), Phasor(fit.Frequency, length));
        for (var part = 0; part < parts; part++)
        {
            left[part] = Sum(line.Slice(part * length, length)) / length - fitted[part];
            squares += left[part] * left[part];
        }

        return (Math.Sqrt(squares / parts), Amplitude(parts, fit.Frequency / 2, first, length), Amplitude(parts, fit.Frequency / 3, first, length));
    }

    /// <summary>Sets the orders to what the mean over a part leaves of each: sin(πkνL)/(L sin πkν), both sines by one rotation an order.</summary>
    private void Scale(IWindowHarmonics fit, LineHarmonics path, int length)
    {
        (cosine[0], sine[0]) = (path.LineCosine[0], 0);
        var (step, longStep) = (Phasor(0.5 * fit.Frequency, 1), Phasor(0.5 * fit.Frequency, length));
        var (turn, longTurn) = (step, longStep);
        for (var k = 1; k <= fit.Orders; k++)
        {
            var gain = Math.Abs(turn.Imaginary) < 1e-9 ? Gain(k * fit.Frequency, length) : longTurn.Imaginary / (length * turn.Imaginary);
            (cosine[k], sine[k]) = (gain * path.LineCosine[k], gain * path.LineSine[k]);
            (turn, longTurn) = (turn * step, longTurn * longStep);
        }
    }

    /// <summary>Works out the scaled orders at the middle of every part, several parts at once: Horner's rule on the powers of the phase.</summary>
    private void Fitted(int parts, int orders, Complex angle, Complex step)
    {
        for (var part = 0; part < parts; part++)
        {
            (cos[part], sin[part]) = (angle.Real, angle.Imaginary);
            angle *= step;
        }

        for (var part = 0; part < parts; part += Vector<double>.Count)
        {
            var (c, s) = (new Vector<double>(cos, part), new Vector<double>(sin, part));
            Vector<double> re = default, im = default;
            for (var k = orders; k >= 1; k--)
            {
                var (a, b) = (re + new Vector<double>(cosine[k]), im - new Vector<double>(sine[k]));
                (re, im) = (a * c - b * s, a * s + b * c);
            }

            (re + new Vector<double>(cosine[0])).CopyTo(fitted, part);
        }
    }

    /// <summary>Gives cosine and sine of 2πνt as a complex number: at most 256 products of it keep 13 digits.</summary>
    private static Complex Phasor(double frequency, double time)
    {
        var (sin, cos) = Math.SinCos(2 * Math.PI * frequency * time);
        return new(cos, sin);
    }

    /// <summary>Gives the mean of cos over a number of samples about its middle.</summary>
    private static double Gain(double frequency, int length)
    {
        var half = Math.PI * frequency;
        var sin = Math.Sin(half);
        return Math.Abs(sin) < 1e-9 ? Math.Cos(half * (length - 1)) : Math.Sin(half * length) / (length * sin);
    }

    private static double Sum(ReadOnlySpan<double> values)
    {
        var sum = Vector<double>.Zero;
        var i = 0;
        for (; i + Vector<double>.Count <= values.Length; i += Vector<double>.Count)
        {
            sum += new Vector<double>(values[i..]);
        }

        var total = Vector.Sum(sum);
        for (; i < values.Length; i++)
        {
            total += values[i];
        }

        return total;
    }

    private double Amplitude(int parts, double frequency, double first, int length)
    {
        // Two by two least squares: the window need not hold whole cycles of a half or a third.
        double cc = 0, ss = 0, cs = 0, c = 0, s = 0;
        var (angle, step) = (Phasor(frequency, first), Phasor(frequency, length));
        for (var part = 0; part < parts; part++)
        {
            var (cos, sin) = (angle.Real, angle.Imaginary);
            angle *= step;
            (cc, ss, cs) = (cc + cos * cos, ss + sin * sin, cs + cos * sin);
            (c, s) = (c + left[part] * cos, s + left[part] * sin);
        }

        var determinant = cc * ss - cs * cs;
        var gain = Math.Abs(Gain(frequency, length));
        return determinant > 1e-6 * cc * ss && gain > 0
            ? double.Hypot(c * ss - s * cs, s * cc - c * cs) / determinant / gain
            : 0;
    }
}
