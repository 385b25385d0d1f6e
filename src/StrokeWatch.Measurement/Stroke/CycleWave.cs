using System.Numerics;

namespace StrokeWatch.Measurement.Stroke;

/// <summary>A sum of harmonics over one cycle on 256 points, worked out on a quarter of them: even and odd orders, cosines and sines tell the rest by their signs.</summary>
internal sealed class CycleWave
{
    /// <summary>The points of a cycle.</summary>
    public const int Points = 256;

    private const int HighestOrder = 40;
    private const int Quarter = Points / 4;

    /// <summary>A quarter with both its ends, filled up to whole vectors.</summary>
    private const int Width = Quarter + 8;

    private static readonly double[] Cosines = Table(Math.Cos);
    private static readonly double[] Sines = Table(Math.Sin);
    private readonly double[] evenCosine = new double[Width];
    private readonly double[] oddCosine = new double[Width];
    private readonly double[] evenSine = new double[Width];
    private readonly double[] oddSine = new double[Width];
    private readonly double[] wave = new double[Points];

    /// <summary>Gives the difference between the highest and the lowest value of Σ aₖ cos kφ + bₖ sin kφ: on the grid, then a parabola through each extreme.</summary>
    /// <param name="cosines">aₖ, index the order; index 0 is not used. At most 40 orders.</param>
    /// <param name="sines">bₖ likewise.</param>
    public double Extent(ReadOnlySpan<double> cosines, ReadOnlySpan<double> sines)
    {
        Sum(cosines, sines);
        Unfold();
        var (least, most) = Lanes.Extremes(wave);
        return Vertex(Array.IndexOf(wave, most)) - Vertex(Array.IndexOf(wave, least));
    }

    private static double[] Table(Func<double, double> function)
    {
        var table = new double[(HighestOrder + 1) * Width];
        for (var k = 0; k <= HighestOrder; k++)
        {
            for (var i = 0; i < Width; i++)
            {
                table[k * Width + i] = function(2 * Math.PI * (k * i % Points) / Points);
            }
        }

        return table;
    }

    private void Sum(ReadOnlySpan<double> cosines, ReadOnlySpan<double> sines)
    {
        var lanes = Vector<double>.Count;
        for (var i = 0; i < Quarter + lanes; i += lanes)
        {
            Vector<double> evenC = default, oddC = default, evenS = default, oddS = default;
            for (var k = 1; k < cosines.Length; k += 2)
            {
                oddC = Vector.MultiplyAddEstimate(new Vector<double>(cosines[k]), new Vector<double>(Cosines, k * Width + i), oddC);
                oddS = Vector.MultiplyAddEstimate(new Vector<double>(sines[k]), new Vector<double>(Sines, k * Width + i), oddS);
            }

            for (var k = 2; k < cosines.Length; k += 2)
            {
                evenC = Vector.MultiplyAddEstimate(new Vector<double>(cosines[k]), new Vector<double>(Cosines, k * Width + i), evenC);
                evenS = Vector.MultiplyAddEstimate(new Vector<double>(sines[k]), new Vector<double>(Sines, k * Width + i), evenS);
            }

            oddC.CopyTo(oddCosine, i);
            oddS.CopyTo(oddSine, i);
            evenC.CopyTo(evenCosine, i);
            evenS.CopyTo(evenSine, i);
        }
    }

    private void Unfold()
    {
        for (var i = 0; i <= Quarter; i++)
        {
            var (up, down) = (evenCosine[i] + oddCosine[i], evenCosine[i] - oddCosine[i]);
            var (left, right) = (evenSine[i] + oddSine[i], oddSine[i] - evenSine[i]);
            wave[i] = up + left;
            wave[Points / 2 - i] = down + right;
            wave[Points / 2 + i] = down - right;
            wave[(Points - i) & (Points - 1)] = up - left;
        }
    }

    private double Vertex(int i)
    {
        var (a, b, c) = (wave[(i + Points - 1) & (Points - 1)], wave[i], wave[(i + 1) & (Points - 1)]);
        var curvature = a - 2 * b + c;
        return curvature == 0 ? b : b - (a - c) * (a - c) / (8 * curvature);
    }
}
