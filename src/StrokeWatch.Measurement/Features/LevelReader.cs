using System.Numerics;
using StrokeWatch.Measurement.Stroke;

namespace StrokeWatch.Measurement.Features;

/// <summary>Reads the levels of orders, parts of orders and remainder off a window that has been fitted; nothing is allocated.</summary>
internal sealed class LevelReader(int largestOrder)
{
    private const double LeastLean = 0.05;

    private readonly SlowMotion slow = new(largestOrder);

    /// <summary>Reads a window.</summary>
    /// <param name="line">The acceleration along the line of action, evenly spaced, in m/s².</param>
    /// <param name="fit">The fit.</param>
    /// <param name="path">The line's harmonics.</param>
    public OrderLevels Read(ReadOnlySpan<double> line, IWindowHarmonics fit, LineHarmonics path)
    {
        Span<float> along = stackalloc float[OrderLevels.Orders];
        along.Clear();
        var across = 0.0;
        for (var k = 1; k <= Math.Min(fit.Orders, OrderLevels.Orders); k++)
        {
            var own = path.LineCosine[k] * path.LineCosine[k] + path.LineSine[k] * path.LineSine[k];
            along[k - 1] = (float)Math.Sqrt(own);
            across += k > 1 ? Math.Max(0, All(fit, k) - own) : 0;
        }

        var first = Of(path, 1);
        var (second, third) = (Sense(path.Direction) * Beside(fit, path, first, 2), Beside(fit, path, first, 3));
        var below = slow.Look(line, fit, path);
        return new(along)
        {
            SecondReal = (float)second.Real,
            SecondImaginary = (float)second.Imaginary,
            ThirdReal = (float)third.Real,
            ThirdImaginary = (float)third.Imaginary,
            Across = fit.Axes > 1 ? (float)Math.Sqrt(across) : 0,
            Half = (float)below.Half,
            Third = (float)below.Third,
            Slow = (float)below.Slow,
            Noise = (float)fit.ResidualDeviation,
        };
    }

    /// <summary>Gives the sense of a line whose own is arbitrary: upwards along the last axis that it leans on. Even orders turn round with it.</summary>
    private static int Sense(ReadOnlySpan<double> direction)
    {
        for (var a = direction.Length - 1; a >= 0; a--)
        {
            if (Math.Abs(direction[a]) > LeastLean)
            {
                return Math.Sign(direction[a]);
            }
        }

        return 1;
    }

    private static Complex Of(LineHarmonics path, int order) => new(path.LineCosine[order], -path.LineSine[order]);

    /// <summary>Gives an order over the fundamental, its phase counted on the fundamental's own clock: Aₖ/|A₁| · (|A₁|/A₁)ᵏ.</summary>
    private static Complex Beside(IWindowHarmonics fit, LineHarmonics path, Complex first, int order)
    {
        if (order > fit.Orders || first == Complex.Zero)
        {
            return Complex.Zero;
        }

        var size = first.Magnitude;
        var turn = Complex.Conjugate(first) / size;
        var turned = Of(path, order) / size;
        for (var i = 0; i < order; i++)
        {
            turned *= turn;
        }

        return turned;
    }

    private static double All(IWindowHarmonics fit, int order)
    {
        var sum = 0.0;
        for (var a = 0; a < fit.Axes; a++)
        {
            sum += fit.Cosine(a)[order] * fit.Cosine(a)[order] + fit.Sine(a)[order] * fit.Sine(a)[order];
        }

        return sum;
    }
}
