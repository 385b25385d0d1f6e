namespace StrokeWatch.Measurement.Stroke;

/// <summary>A symmetric positive-definite system, factored and solved in place (Cholesky); it allocates nothing after it is made.</summary>
internal sealed class SmallSystem(int largest)
{
    private readonly double[] factor = new double[largest * largest];
    private int size;

    /// <summary>Gets the entry to be filled before <see cref="Factor"/>; only the lower half is read.</summary>
    public ref double this[int row, int column] => ref factor[row * largest + column];

    /// <summary>Factors the matrix; false where it is not positive definite.</summary>
    public bool Factor(int order)
    {
        size = order;
        for (var row = 0; row < order; row++)
        {
            var a = factor.AsSpan(row * largest, row + 1);
            for (var column = 0; column <= row; column++)
            {
                var b = factor.AsSpan(column * largest, column + 1);
                var value = a[column];
                for (var k = 0; k < column; k++)
                {
                    value -= a[k] * b[k];
                }

                if (column < row)
                {
                    a[column] = value / b[column];
                }
                else if (value > 0)
                {
                    a[column] = Math.Sqrt(value);
                }
                else
                {
                    return false;
                }
            }
        }

        return true;
    }

    /// <summary>Solves for one right side, in place.</summary>
    public void Solve(Span<double> values)
    {
        for (var row = 0; row < size; row++)
        {
            var a = factor.AsSpan(row * largest, row + 1);
            var value = values[row];
            for (var k = 0; k < row; k++)
            {
                value -= a[k] * values[k];
            }

            values[row] = value / a[row];
        }

        for (var row = size - 1; row >= 0; row--)
        {
            var value = values[row];
            for (var k = row + 1; k < size; k++)
            {
                value -= factor[k * largest + row] * values[k];
            }

            values[row] = value / factor[row * largest + row];
        }
    }
}
