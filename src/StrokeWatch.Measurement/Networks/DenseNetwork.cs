using StrokeWatch.Measurement.Stroke;
using StrokeWatch.Measurement.Trees;

namespace StrokeWatch.Measurement.Networks;

/// <summary>
/// A network of layers in which every number weighs in every next one, with x / (1 + exp(−x)) between them (Elfwing, Uchibe and Doya, Neural Networks 107 (2018) 3, from memory). It follows what turns with a phase smoothly, where trees
/// take steps.
/// </summary>
/// <remarks>
/// Little endian: inputs; of each input the least and the most that it is taken for, and the mean and the scale by which it is made one of order one (floats): beyond what it was trained on a network means nothing. Then the number of layers;
/// of each layer its outputs, of each output the weights of the inputs and what is added (floats). The last layer has one output. The benchmark project trains and writes them.
/// </remarks>
public sealed class DenseNetwork
{
    private const int MostNumbers = 1024;

    private readonly double[] least, most, mean, scale;
    private readonly (double[] Weights, double[] Added)[] layers;
    private readonly int widest;

    private DenseNetwork(double[] least, double[] most, double[] mean, double[] scale, (double[] Weights, double[] Added)[] layers) =>
        (this.least, this.most, this.mean, this.scale, this.layers, widest) = (least, most, mean, scale, layers, layers.Max(layer => layer.Added.Length));

    /// <summary>Gets the number of inputs.</summary>
    public int Inputs => least.Length;

    /// <summary>Reads a network and moves on to what follows it.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The data ends too early.</exception>
    /// <exception cref="InvalidDataException">The numbers are none of a network.</exception>
    public static DenseNetwork Read(ref ReadOnlySpan<byte> data)
    {
        var inputs = Size(ref data);
        var (least, most, mean, scale) = (new double[inputs], new double[inputs], new double[inputs], new double[inputs]);
        for (var i = 0; i < inputs; i++)
        {
            (least[i], most[i], mean[i], scale[i]) = (DecisionForest.Float(ref data), DecisionForest.Float(ref data), DecisionForest.Float(ref data), DecisionForest.Float(ref data));
        }

        var layers = new (double[] Weights, double[] Added)[Size(ref data)];
        var from = inputs;
        for (var layer = 0; layer < layers.Length; layer++)
        {
            var to = Size(ref data);
            layers[layer] = (new double[to * from], new double[to]);
            for (var output = 0; output < to; output++)
            {
                for (var i = 0; i < from; i++)
                {
                    layers[layer].Weights[(output * from) + i] = DecisionForest.Float(ref data);
                }

                layers[layer].Added[output] = DecisionForest.Float(ref data);
            }

            from = to;
        }

        return from == 1 ? new(least, most, mean, scale, layers) : throw new InvalidDataException("the last layer of a network has one output");
    }

    /// <summary>Reads the networks of a file, one after the other.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The data ends within one.</exception>
    /// <exception cref="InvalidDataException">The numbers are none of a network.</exception>
    public static DenseNetwork[] ReadAll(ReadOnlySpan<byte> data)
    {
        var networks = new List<DenseNetwork>();
        while (data.Length > 0)
        {
            networks.Add(Read(ref data));
        }

        return [.. networks];
    }

    /// <summary>Gives the output. Nothing is allocated.</summary>
    /// <param name="numbers">The inputs, as many as the network was trained on; what is no number is taken for the least.</param>
    public double Sum(ReadOnlySpan<double> numbers)
    {
        Span<double> here = stackalloc double[Math.Max(Inputs, widest)];
        Span<double> next = stackalloc double[here.Length];
        for (var i = 0; i < Inputs; i++)
        {
            var value = numbers[i] >= least[i] ? Math.Min(numbers[i], most[i]) : least[i];
            here[i] = (value - mean[i]) * scale[i];
        }

        var from = Inputs;
        foreach (var (weights, added) in layers)
        {
            for (var output = 0; output < added.Length; output++)
            {
                var sum = added[output] + Lanes.Dot(weights.AsSpan(output * from, from), here[..from]);
                next[output] = added.Length == 1 ? sum : sum / (1 + Math.Exp(-sum));
            }

            from = added.Length;
            next[..from].CopyTo(here);
        }

        return here[0];
    }

    private static int Size(ref ReadOnlySpan<byte> data) =>
        DecisionForest.Int(ref data) is > 0 and <= MostNumbers and var size ? size : throw new InvalidDataException($"a network has 1 to {MostNumbers} numbers a layer");
}
