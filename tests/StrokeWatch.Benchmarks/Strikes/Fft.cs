using System.Numerics;

namespace StrokeWatch.Benchmarks.Strikes;

/// <summary>The fast Fourier transform of a power of two of values, in place (Cooley and Tukey's, radix 2).</summary>
internal sealed class Fft
{
    private readonly Complex[] turns;
    private readonly int[] places;

    public Fft(int length)
    {
        turns = [.. Enumerable.Range(0, length / 2).Select(i => Complex.FromPolarCoordinates(1, -2 * Math.PI * i / length))];
        places = new int[length];
        for (var i = 1; i < length; i++)
        {
            places[i] = (places[i >> 1] >> 1) | ((i & 1) == 1 ? length >> 1 : 0);
        }
    }

    /// <summary>Gives Σ x e^(−2πikn/N); the other way, without dividing by N, where the sign is to be plus.</summary>
    public void Transform(Complex[] values, bool back = false)
    {
        for (var i = 0; i < values.Length; i++)
        {
            if (places[i] > i)
            {
                (values[i], values[places[i]]) = (values[places[i]], values[i]);
            }
        }

        for (int half = 1, stride = values.Length / 2; half < values.Length; half *= 2, stride /= 2)
        {
            for (var start = 0; start < values.Length; start += 2 * half)
            {
                for (var i = 0; i < half; i++)
                {
                    var turn = turns[i * stride];
                    double cos = turn.Real, sin = back ? -turn.Imaginary : turn.Imaginary;
                    var (a, b) = (values[start + i], values[start + i + half]);
                    var product = new Complex((b.Real * cos) - (b.Imaginary * sin), (b.Real * sin) + (b.Imaginary * cos));
                    (values[start + i], values[start + i + half]) = (a + product, a - product);
                }
            }
        }
    }
}
