using System.Diagnostics;
using System.Globalization;

namespace StrokeWatch.Benchmarks.Networks;

/// <summary>
/// Trains a network that tells true rows from others and writes it as <see cref="StrokeWatch.Measurement.Networks.DenseNetwork"/> reads it: the cross-entropy by Adam with decayed weights (Kingma and Ba, 2015; Loshchilov and Hutter, 2019;
/// from memory), some of the hidden numbers left out in each step.
/// </summary>
/// <remarks>Own code, as the library that would do it brings 600 MB to every machine that runs the tests. What a batch gives is summed in parts of a fixed number: the cores do not change the network.</remarks>
internal sealed class TrainedNetwork
{
    private const int Batch = 2048, Parts = 4;
    private const float LeftOut = 0.1f, Decay = 1e-2f, Momentum = 0.9f, SquaresMomentum = 0.999f;
    private const double Rising = 0.15, Outermost = 5e-4;

    private readonly int[] sizes;
    private readonly float[] least, most, mean, scale;
    private readonly int inputs;
    private readonly NetworkLayer[] layers;

    private TrainedNetwork(List<NetworkRow> rows, int inputs, int[] hidden, int seed)
    {
        this.inputs = inputs;
        sizes = [(inputs + Matrices.Rows - 1) / Matrices.Rows * Matrices.Rows, .. hidden];
        (least, most, mean, scale) = (new float[inputs], new float[inputs], new float[inputs], new float[inputs]);
        var some = rows.Where((_, i) => i % Math.Max(1, rows.Count / 100_000) == 0).ToList();
        Parallel.For(0, inputs, i =>
        {
            var values = some.Select(row => row.Numbers[i]).Order().ToArray();
            var end = (int)(Outermost * values.Length);
            (least[i], most[i]) = (values[end], values[^(end + 1)]);
            var kept = values[end..^end];
            mean[i] = kept.Average();
            scale[i] = 1 / (float)Math.Sqrt(kept.Average(value => (double)(value - mean[i]) * (value - mean[i])) + 1e-12);
        });
        var random = new Random(seed);
        layers = [.. Enumerable.Range(0, sizes.Length).Select(i => new NetworkLayer(random, sizes[i], i + 1 < sizes.Length ? sizes[i + 1] : 1, i == 0 ? inputs : sizes[i]))];
    }

    /// <summary>Trains a network.</summary>
    /// <param name="rows">The rows.</param>
    /// <param name="inputs">Numbers of a row.</param>
    /// <param name="hidden">Numbers of each layer between, multiples of 32.</param>
    /// <param name="passes">How often all rows are gone through.</param>
    /// <param name="step">The longest step.</param>
    /// <param name="seed">Draws the first weights and the order of the rows.</param>
    public static TrainedNetwork Train(List<NetworkRow> rows, int inputs, int[] hidden, int passes, double step, int seed)
    {
        var network = new TrainedNetwork(rows, inputs, hidden, seed);
        var parts = Enumerable.Range(0, Parts).Select(part => new NetworkPass(network.sizes, network.layers, Batch / Parts, new Random(seed + part + 1), LeftOut)).ToArray();
        var (random, order) = (new Random(seed), Enumerable.Range(0, rows.Count).ToArray());
        var (batches, at) = (rows.Count / Batch, 0);
        var clock = Stopwatch.StartNew();
        for (var pass = 0; pass < passes; pass++)
        {
            random.Shuffle(order);
            var loss = 0.0;
            for (var batch = 0; batch < batches; batch++)
            {
                Parallel.For(0, Parts, part =>
                {
                    var own = parts[part];
                    for (var i = 0; i < Batch / Parts; i++)
                    {
                        var row = rows[order[(batch * Batch) + (part * Batch / Parts) + i]];
                        network.Fill(row.Numbers, own.Inputs.AsSpan(i * network.sizes[0]));
                        (own.Labels[i], own.Weights[i]) = (row.Label ? 1 : 0, row.Weight);
                    }

                    own.Work();
                });
                loss += parts.Sum(part => part.Loss) / Batch;
                var (share, all) = ((double)at / (batches * passes), ++at);
                var length = step * (share < Rising ? 0.04 + (0.96 * share / Rising) : 0.5 * (1 + Math.Cos(Math.PI * (share - Rising) / (1 - Rising))));
                Parallel.For(0, network.layers.Length, layer => network.layers[layer].Step(parts.Select(part => part.Gradients[layer]), Batch, (float)length, all, Momentum, SquaresMomentum, Decay));
            }

            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  pass {pass + 1} of {passes}: cross-entropy {loss / batches:0.00000}, {clock.Elapsed.TotalSeconds:0} s"));
        }

        return network;
    }

    /// <summary>Writes the network.</summary>
    public void Write(BinaryWriter writer)
    {
        writer.Write(inputs);
        for (var i = 0; i < inputs; i++)
        {
            writer.Write(least[i]);
            writer.Write(most[i]);
            writer.Write(mean[i]);
            writer.Write(scale[i]);
        }

        writer.Write(layers.Length);
        foreach (var layer in layers)
        {
            layer.Write(writer);
        }
    }

    private void Fill(float[] numbers, Span<float> into)
    {
        for (var i = 0; i < inputs; i++)
        {
            into[i] = ((numbers[i] >= least[i] ? Math.Min(numbers[i], most[i]) : least[i]) - mean[i]) * scale[i];
        }
    }
}
