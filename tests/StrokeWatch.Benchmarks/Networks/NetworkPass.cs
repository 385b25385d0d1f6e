namespace StrokeWatch.Benchmarks.Networks;

/// <summary>Takes some rows through a network and gives how its weights would have to change.</summary>
internal sealed class NetworkPass
{
    private readonly int rows;
    private readonly int[] sizes;
    private readonly NetworkLayer[] layers;
    private readonly Random random;
    private readonly float leftOut;
    private readonly float[][] values, slopes, errors;

    /// <summary>Initialises a new instance of the <see cref="NetworkPass"/> class.</summary>
    /// <param name="sizes">Numbers of each layer but the last one's single one.</param>
    /// <param name="layers">The layers.</param>
    /// <param name="rows">So many rows at once, a multiple of <see cref="Matrices.Rows"/>.</param>
    /// <param name="random">Draws what is left out.</param>
    /// <param name="leftOut">The share of hidden numbers that is left out.</param>
    public NetworkPass(int[] sizes, NetworkLayer[] layers, int rows, Random random, float leftOut)
    {
        (this.sizes, this.layers, this.rows, this.random, this.leftOut) = (sizes, layers, rows, random, leftOut);
        values = [.. sizes.Select(size => new float[rows * size])];
        slopes = [.. sizes.Select(size => new float[rows * size])];
        errors = [.. sizes.Select(size => new float[rows * size])];
        Gradients = [.. layers.Select(layer => new float[layer.Weights.Length])];
        (Labels, Weights) = (new float[rows], new float[rows]);
    }

    /// <summary>Gets the inputs, row by row.</summary>
    public float[] Inputs => values[0];

    /// <summary>Gets 1 for rows that show what is to be told, 0 for others.</summary>
    public float[] Labels { get; }

    /// <summary>Gets how much each row weighs.</summary>
    public float[] Weights { get; }

    /// <summary>Gets the gradients of each layer's weights, summed over the rows.</summary>
    public float[][] Gradients { get; }

    /// <summary>Gets the cross-entropy, summed over the rows.</summary>
    public double Loss { get; private set; }

    /// <summary>Goes forth and back.</summary>
    public void Work()
    {
        for (var layer = 0; layer < sizes.Length - 1; layer++)
        {
            Forth(layer);
        }

        Last();
        for (var layer = sizes.Length - 2; layer >= 0; layer--)
        {
            Back(layer);
        }
    }

    private void Forth(int layer)
    {
        var (from, to, weights) = (sizes[layer], sizes[layer + 1], layers[layer].Weights);
        var (into, slope) = (values[layer + 1], slopes[layer + 1]);
        Matrices.Multiply(values[layer], from, 1, weights, into, rows, from, to);
        var kept = 1 / (1 - leftOut);
        for (var row = 0; row < rows; row++)
        {
            for (var n = 0; n < to; n++)
            {
                var at = (row * to) + n;
                if (random.NextSingle() < leftOut)
                {
                    (into[at], slope[at]) = (0, 0);
                    continue;
                }

                var sum = into[at] + weights[(from * to) + n];
                var gate = 1 / (1 + MathF.Exp(-sum));
                (into[at], slope[at]) = (kept * sum * gate, kept * gate * (1 + (sum * (1 - gate))));
            }
        }
    }

    private void Last()
    {
        var (size, weights, gradient) = (sizes[^1], layers[^1].Weights, Gradients[^1]);
        Array.Clear(gradient);
        Loss = 0;
        for (var row = 0; row < rows; row++)
        {
            var here = values[^1].AsSpan(row * size, size);
            var sum = weights[size];
            for (var n = 0; n < size; n++)
            {
                sum += here[n] * weights[n];
            }

            var error = Weights[row] * ((1 / (1 + MathF.Exp(-sum))) - Labels[row]);
            Loss += Weights[row] * (Math.Max(sum, 0) - (sum * Labels[row]) + Math.Log(1 + Math.Exp(-Math.Abs(sum))));
            gradient[size] += error;
            for (var n = 0; n < size; n++)
            {
                gradient[n] += error * here[n];
                errors[^1][(row * size) + n] = error * weights[n] * slopes[^1][(row * size) + n];
            }
        }
    }

    private void Back(int layer)
    {
        var (from, to, error, gradient) = (sizes[layer], sizes[layer + 1], errors[layer + 1], Gradients[layer]);
        Matrices.Multiply(values[layer], 1, from, error, gradient, from, rows, to);
        var added = gradient.AsSpan(from * to, to);
        added.Clear();
        for (var row = 0; row < rows; row++)
        {
            for (var n = 0; n < to; n++)
            {
                added[n] += error[(row * to) + n];
            }
        }

        if (layer == 0)
        {
            return;
        }

        Matrices.Multiply(error, to, 1, layers[layer].Turned, errors[layer], rows, to, from);
        var slope = slopes[layer];
        for (var i = 0; i < slope.Length; i++)
        {
            errors[layer][i] *= slope[i];
        }
    }
}
