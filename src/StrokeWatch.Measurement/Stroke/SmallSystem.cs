using System.Numerics;
using System.Runtime.InteropServices;

namespace StrokeWatch.Measurement.Stroke;

/// <summary>A symmetric positive-definite system, factored and solved in place (Cholesky, A = UᵀU, row by row); it allocates nothing after it is made.</summary>
internal sealed class SmallSystem
{
    private readonly double[] upper;
    private readonly double[] inverse;
    private readonly double[] work;
    private readonly int stride;
    private int size;

    /// <summary>Makes a system up to a size.</summary>
    public SmallSystem(int largest)
    {
        var lanes = Vector<double>.Count;
        stride = (largest + lanes - 1) / lanes * lanes;
        upper = new double[largest * stride];
        inverse = new double[largest];
        work = new double[stride];
    }

    /// <summary>Gives the row whose entries from the diagonal on are to be filled before <see cref="Factor"/>; the others are not read.</summary>
    public Span<double> Row(int row) => upper.AsSpan(row * stride, stride);

    /// <summary>Factors the matrix; false where it is not positive definite.</summary>
    public bool Factor(int order)
    {
        size = order;
        var lanes = Vector<double>.Count;
        for (var j = 0; j < order; j++)
        {
            var pivots = Row(j);
            var pivot = pivots[j];
            if (!(pivot > 0))
            {
                return false;
            }

            // What stands before the diagonal is cleared and the diagonal kept apart, so that whole vectors can be taken from the row.
            inverse[j] = 1 / Math.Sqrt(pivot);
            pivots[(j - j % lanes)..(j + 1)].Clear();
            pivots[order..].Clear();
            var row = MemoryMarshal.Cast<double, Vector<double>>(pivots);
            for (var v = j / lanes; v < row.Length; v++)
            {
                row[v] *= inverse[j];
            }

            for (var i = j + 1; i < order; i++)
            {
                var below = MemoryMarshal.Cast<double, Vector<double>>(Row(i));
                var factor = new Vector<double>(-pivots[i]);
                for (var v = i / lanes; v < below.Length && v < row.Length; v++)
                {
                    below[v] = Vector.MultiplyAddEstimate(factor, row[v], below[v]);
                }
            }
        }

        return true;
    }

    /// <summary>Solves for one right side, in place.</summary>
    public void Solve(Span<double> values)
    {
        var lanes = Vector<double>.Count;
        values[..size].CopyTo(work);
        work.AsSpan(size).Clear();
        var x = MemoryMarshal.Cast<double, Vector<double>>(work.AsSpan());
        for (var j = 0; j < size; j++)
        {
            var row = MemoryMarshal.Cast<double, Vector<double>>(Row(j));
            work[j] *= inverse[j];
            var factor = new Vector<double>(-work[j]);
            for (var v = j / lanes; v < row.Length && v < x.Length; v++)
            {
                x[v] = Vector.MultiplyAddEstimate(factor, row[v], x[v]);
            }
        }

        for (var j = size - 1; j >= 0; j--)
        {
            var row = MemoryMarshal.Cast<double, Vector<double>>(Row(j));
            Vector<double> sum = default;
            for (var v = j / lanes; v < row.Length && v < x.Length; v++)
            {
                sum = Vector.MultiplyAddEstimate(row[v], x[v], sum);
            }

            work[j] = (work[j] - Vector.Sum(sum)) * inverse[j];
        }

        work.AsSpan(0, size).CopyTo(values);
    }
}
