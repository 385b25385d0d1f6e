using System.Numerics;
using System.Runtime.CompilerServices;

namespace StrokeWatch.Measurement.Stroke;

/// <summary>
/// A symmetric positive-definite system, factored and solved in place (Cholesky, A = UᵀU) for a number of right sides at once; it allocates nothing after it is made.
/// </summary>
internal sealed class SmallSystem
{
    private static readonly nuint Lanes = (nuint)Vector<double>.Count;
    private readonly double[] upper;
    private readonly double[] inverse;
    private readonly double[] values;
    private readonly nuint stride;
    private readonly nuint width;
    private nuint size;

    /// <summary>Makes a system up to a size, for up to a number of right sides.</summary>
    public SmallSystem(int largest, int sides)
    {
        stride = Padded(largest);
        width = Padded(sides);
        upper = new double[(nuint)largest * stride];
        inverse = new double[largest];
        values = new double[(nuint)largest * width];
    }

    /// <summary>Gets the row whose entries from the diagonal on are to be filled before <see cref="Factor"/>; the others are not read.</summary>
    public Span<double> Row(int row) => upper.AsSpan(row * (int)stride, (int)stride);

    /// <summary>Gets the entry of a right side, and after <see cref="Solve"/> of its solution.</summary>
    public ref double this[int row, int side] => ref values[row * (int)width + side];

    /// <summary>Factors the matrix; false where it is not positive definite.</summary>
    public bool Factor(int order)
    {
        size = (nuint)order;
        ref var matrix = ref upper[0];
        for (nuint j = 0; j < size; j++)
        {
            ref var row = ref Unsafe.Add(ref matrix, j * stride);
            var pivot = Unsafe.Add(ref row, j);
            if (!(pivot > 0))
            {
                return false;
            }

            inverse[j] = 1 / Math.Sqrt(pivot);
            var scale = new Vector<double>(inverse[j]);
            for (var c = j - j % Lanes; c < size; c += Lanes)
            {
                (Vector.LoadUnsafe(ref row, c) * scale).StoreUnsafe(ref row, c);
            }

            // Vectors begin before the diagonal and end behind the last column; what they change there is never read.
            for (var i = j + 1; i < size; i++)
            {
                ref var below = ref Unsafe.Add(ref matrix, i * stride);
                var factor = new Vector<double>(-Unsafe.Add(ref row, i));
                for (var c = i - i % Lanes; c < size; c += Lanes)
                {
                    Vector.MultiplyAddEstimate(factor, Vector.LoadUnsafe(ref row, c), Vector.LoadUnsafe(ref below, c)).StoreUnsafe(ref below, c);
                }
            }
        }

        return true;
    }

    /// <summary>Solves for all right sides, in place.</summary>
    public void Solve()
    {
        for (nuint side = 0; side < width; side += Lanes)
        {
            SolveLanes(ref Unsafe.Add(ref values[0], side));
        }
    }

    private static nuint Padded(int count) => ((nuint)count + Lanes - 1) / Lanes * Lanes;

    private void SolveLanes(ref double x)
    {
        ref var matrix = ref upper[0];
        for (nuint j = 0; j < size; j++)
        {
            ref var row = ref Unsafe.Add(ref matrix, j * stride);
            var solved = Vector.LoadUnsafe(ref x, j * width) * inverse[j];
            solved.StoreUnsafe(ref x, j * width);
            for (var i = j + 1; i < size; i++)
            {
                Vector.MultiplyAddEstimate(new Vector<double>(-Unsafe.Add(ref row, i)), solved, Vector.LoadUnsafe(ref x, i * width)).StoreUnsafe(ref x, i * width);
            }
        }

        for (var j = size; j-- > 0;)
        {
            ref var row = ref Unsafe.Add(ref matrix, j * stride);
            Vector<double> even = default, odd = default;
            var i = j + 1;
            for (; i + 1 < size; i += 2)
            {
                even = Vector.MultiplyAddEstimate(new Vector<double>(Unsafe.Add(ref row, i)), Vector.LoadUnsafe(ref x, i * width), even);
                odd = Vector.MultiplyAddEstimate(new Vector<double>(Unsafe.Add(ref row, i + 1)), Vector.LoadUnsafe(ref x, (i + 1) * width), odd);
            }

            if (i < size)
            {
                even = Vector.MultiplyAddEstimate(new Vector<double>(Unsafe.Add(ref row, i)), Vector.LoadUnsafe(ref x, i * width), even);
            }

            ((Vector.LoadUnsafe(ref x, j * width) - even - odd) * inverse[j]).StoreUnsafe(ref x, j * width);
        }
    }
}
