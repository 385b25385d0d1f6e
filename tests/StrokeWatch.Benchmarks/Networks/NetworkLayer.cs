namespace StrokeWatch.Benchmarks.Networks;

/// <summary>Weights between one layer's numbers and the next one's, and their steps.</summary>
internal sealed class NetworkLayer
{
    private readonly int from, to, known;
    private readonly float[] first, second, summed;

    /// <summary>Initialises a new instance of the <see cref="NetworkLayer"/> class with weights drawn for layers of the kind (He and others, 2015, from memory).</summary>
    /// <param name="random">Draws them.</param>
    /// <param name="from">Numbers that weigh.</param>
    /// <param name="to">Numbers weighed.</param>
    /// <param name="known">Numbers that weigh, without those that fill a block up and are always zero.</param>
    public NetworkLayer(Random random, int from, int to, int known)
    {
        (this.from, this.to, this.known) = (from, to, known);
        Weights = new float[(from + 1) * to];
        (first, second, summed) = (new float[Weights.Length], new float[Weights.Length], new float[Weights.Length]);
        Turned = new float[from * to];
        for (var i = 0; i < known * to; i++)
        {
            Weights[i] = (float)(Math.Sqrt((to == 1 ? 1.0 : 2.0) / known) * Strikes.Draw.Normal(random));
        }

        Matrices.Turn(Weights, from, to, Turned);
    }

    /// <summary>Gets the weights, a row of so many outputs for each input, and a last row of what is added.</summary>
    public float[] Weights { get; }

    /// <summary>Gets the weights turned on their side, without what is added.</summary>
    public float[] Turned { get; }

    /// <summary>Takes a step against the gradients of a batch.</summary>
    public void Step(IEnumerable<float[]> gradients, int rows, float length, int steps, float momentum, float squaresMomentum, float decay)
    {
        Array.Clear(summed);
        foreach (var gradient in gradients)
        {
            for (var i = 0; i < summed.Length; i++)
            {
                summed[i] += gradient[i];
            }
        }

        var (a, b) = (1 - MathF.Pow(momentum, steps), 1 - MathF.Pow(squaresMomentum, steps));
        for (var i = 0; i < summed.Length; i++)
        {
            var gradient = summed[i] / rows;
            first[i] = (momentum * first[i]) + ((1 - momentum) * gradient);
            second[i] = (squaresMomentum * second[i]) + ((1 - squaresMomentum) * gradient * gradient);
            Weights[i] -= length * ((first[i] / a / (MathF.Sqrt(second[i] / b) + 1e-8f)) + (decay * Weights[i]));
        }

        Matrices.Turn(Weights, from, to, Turned);
    }

    /// <summary>Writes outputs, and of each its weights and what is added.</summary>
    public void Write(BinaryWriter writer)
    {
        writer.Write(to);
        for (var output = 0; output < to; output++)
        {
            for (var i = 0; i < known; i++)
            {
                writer.Write(Weights[(i * to) + output]);
            }

            writer.Write(Weights[(from * to) + output]);
        }
    }
}
