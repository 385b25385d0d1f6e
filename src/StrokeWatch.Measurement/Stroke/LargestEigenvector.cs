namespace StrokeWatch.Measurement.Stroke;

/// <summary>The eigenvector of the largest eigenvalue of a small symmetric positive matrix, by repeated squaring.</summary>
internal static class LargestEigenvector
{
    private const int Squarings = 12;

    /// <summary>Finds the unit eigenvector; its largest component is positive. A zero matrix gives the first axis.</summary>
    public static void Find(Span<double> matrix, Span<double> vector)
    {
        var size = vector.Length;
        Span<double> square = stackalloc double[size * size];
        for (var i = 0; i < Squarings; i++)
        {
            var trace = 0.0;
            for (var k = 0; k < size; k++)
            {
                trace += matrix[k * size + k];
            }

            if (!(trace > 0))
            {
                vector.Clear();
                vector[0] = 1;
                return;
            }

            // From the first squaring on the trace is Σλ² over (Σλ)²: at one there is nothing but the largest.
            if (i > 0 && trace > 1 - 1e-15)
            {
                break;
            }

            for (var row = 0; row < size; row++)
            {
                for (var column = 0; column < size; column++)
                {
                    var sum = 0.0;
                    for (var k = 0; k < size; k++)
                    {
                        sum += matrix[row * size + k] * matrix[k * size + column];
                    }

                    square[row * size + column] = sum / (trace * trace);
                }
            }

            square.CopyTo(matrix);
        }

        var best = 0;
        for (var k = 1; k < size; k++)
        {
            best = matrix[k * size + k] > matrix[best * size + best] ? k : best;
        }

        var norm = 0.0;
        for (var k = 0; k < size; k++)
        {
            vector[k] = matrix[k * size + best];
            norm += vector[k] * vector[k];
        }

        norm = Math.Sqrt(norm);
        for (var k = 0; k < size; k++)
        {
            vector[k] /= norm;
        }
    }
}
