using System.Numerics;
using StrokeWatch.Measurement.Stroke;

namespace StrokeWatch.Measurement.Impacts;

/// <summary>What a second difference makes of the low orders of a window, sample by sample; it allocates only where a window is longer than every one before.</summary>
/// <remarks>
/// Cosines are even and sines odd about the middle, so half the window tells the other half; both sums are Clenshaw's: bₖ = cₖ + 2 cos θ bₖ₊₁ − bₖ₊₂
/// (C. W. Clenshaw, 1955; from memory), whose rounding grows with the square of the order, of which there are few.
/// </remarks>
internal sealed class LowOrderWave
{
    private double[] values = [];
    private double[] mirrored = [];
    private int length;

    /// <summary>Gets the values, one a sample.</summary>
    public ReadOnlySpan<double> Values => values.AsSpan(0, length);

    /// <summary>Works the values out.</summary>
    /// <param name="cosines">Coefficients of the wave about the middle of the window, index the order; index 0 is not used.</param>
    /// <param name="sines">Likewise.</param>
    /// <param name="orders">The highest order.</param>
    /// <param name="frequency">The fundamental in cycles a sample.</param>
    /// <param name="lag">The samples between the ends of the difference and its middle; 0 for the orders as they are.</param>
    /// <param name="samples">The samples of the window.</param>
    public void Take(ReadOnlySpan<double> cosines, ReadOnlySpan<double> sines, int orders, double frequency, int lag, int samples)
    {
        Span<Vector<double>> c = stackalloc Vector<double>[orders + 1];
        Span<Vector<double>> s = stackalloc Vector<double>[orders + 1];
        var cosine = Math.Cos(2 * Math.PI * frequency * lag);
        var (before, now) = (1.0, cosine);
        for (var k = 1; k <= orders; k++)
        {
            var weight = lag == 0 ? 1 : 1 - now;
            (c[k], s[k]) = (new(weight * cosines[k]), new(weight * sines[k]));
            (before, now) = (now, (2 * cosine * now) - before);
        }

        var (half, middle) = (samples / 2, samples % 2);
        Resize(samples);
        Fill(c, s, frequency, half, middle);
        var ahead = mirrored.AsSpan(middle, half);
        ahead.Reverse();
        ahead.CopyTo(values);
    }

    private void Fill(ReadOnlySpan<Vector<double>> c, ReadOnlySpan<Vector<double>> s, double frequency, int half, int middle)
    {
        var lanes = Vector<double>.Count;
        var (a, step) = (Turn.At(frequency, 0.5 * (1 - middle)), Turn.By(frequency, lanes));
        var b = a * step;
        step *= step;
        for (var j = 0; j < half + middle; j += 2 * lanes)
        {
            // Two vectors side by side: each sum waits for itself, two of them need not wait for each other.
            var (twiceA, twiceB) = (a.Cos + a.Cos, b.Cos + b.Cos);
            Vector<double> evenA = default, evenB = default, oddA = default, oddB = default;
            Vector<double> pastEvenA = default, pastEvenB = default, pastOddA = default, pastOddB = default;
            for (var k = c.Length - 1; k >= 1; k--)
            {
                var (nextEvenA, nextEvenB) = (Vector.MultiplyAddEstimate(twiceA, evenA, c[k]) - pastEvenA, Vector.MultiplyAddEstimate(twiceB, evenB, c[k]) - pastEvenB);
                var (nextOddA, nextOddB) = (Vector.MultiplyAddEstimate(twiceA, oddA, s[k]) - pastOddA, Vector.MultiplyAddEstimate(twiceB, oddB, s[k]) - pastOddB);
                (pastEvenA, pastEvenB, pastOddA, pastOddB) = (evenA, evenB, oddA, oddB);
                (evenA, evenB, oddA, oddB) = (nextEvenA, nextEvenB, nextOddA, nextOddB);
            }

            Store(half, j, (evenA * a.Cos) - pastEvenA, oddA * a.Sin);
            Store(half, j + lanes, (evenB * b.Cos) - pastEvenB, oddB * b.Sin);
            (a, b) = (a * step, b * step);
        }
    }

    private void Store(int half, int j, Vector<double> even, Vector<double> odd)
    {
        (even + odd).CopyTo(values, half + j);
        (even - odd).CopyTo(mirrored, j);
    }

    private void Resize(int samples)
    {
        length = samples;
        if (values.Length < samples + (4 * Vector<double>.Count))
        {
            values = new double[samples + (4 * Vector<double>.Count)];
            mirrored = new double[(samples / 2) + (4 * Vector<double>.Count)];
        }
    }
}
