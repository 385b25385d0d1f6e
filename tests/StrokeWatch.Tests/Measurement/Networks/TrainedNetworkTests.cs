using StrokeWatch.Benchmarks.Networks;
using StrokeWatch.Benchmarks.Strikes;
using StrokeWatch.Measurement.Networks;
using Xunit;

namespace StrokeWatch.Tests.Measurement.Networks;

/// <summary>How networks are trained: products against plain sums, gradients against differences, and a network that has learned what no single input tells.</summary>
public sealed class TrainedNetworkTests
{
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void A_product_is_the_plain_sum(bool turned)
    {
        var random = new Random(1);
        const int Rows = 12, Depth = 7, Columns = 64;
        var (a, b, into) = (Numbers(random, Rows * Depth), Numbers(random, Depth * Columns), new float[Rows * Columns]);
        var (rowStep, depthStep) = turned ? (1, Rows) : (Depth, 1);
        Matrices.Multiply(a, rowStep, depthStep, b, into, Rows, Depth, Columns);
        for (var row = 0; row < Rows; row++)
        {
            for (var column = 0; column < Columns; column++)
            {
                var expected = Enumerable.Range(0, Depth).Sum(k => (double)a[(row * rowStep) + (k * depthStep)] * b[(k * Columns) + column]);
                Assert.Equal(expected, into[(row * Columns) + column], 1e-5);
            }
        }
    }

    [Fact]
    public void Gradients_are_the_differences_of_the_loss()
    {
        var random = new Random(2);
        int[] sizes = [8, 64, 32];
        NetworkLayer[] layers = [new(random, 8, 64, 6), new(random, 64, 32, 64), new(random, 32, 1, 32)];
        var pass = new NetworkPass(sizes, layers, 8, random, 0);
        Numbers(random, 64).CopyTo(pass.Inputs, 0);
        for (var row = 0; row < 8; row++)
        {
            (pass.Labels[row], pass.Weights[row]) = (row % 2, row < 4 ? 1 : 0.2f);
        }

        pass.Work();
        var gradients = pass.Gradients.Select(gradient => gradient.ToArray()).ToArray();
        for (var layer = 0; layer < layers.Length; layer++)
        {
            for (var i = 0; i < layers[layer].Weights.Length; i += 1 + (layers[layer].Weights.Length / 40))
            {
                Assert.Equal((Loss(0.01f) - Loss(-0.01f)) / 0.02, gradients[layer][i], 0.002);

                double Loss(float step)
                {
                    var kept = layers[layer].Weights[i];
                    layers[layer].Weights[i] += step;
                    pass.Work();
                    layers[layer].Weights[i] = kept;
                    return pass.Loss;
                }
            }
        }
    }

    [Fact]
    public void It_learns_what_no_single_input_tells_and_is_read_as_it_was_written()
    {
        var random = new Random(3);
        var rows = Enumerable.Range(0, 20_480).Select(_ => Row(random)).ToList();
        var network = TrainedNetwork.Train(rows, 3, [32, 32], passes: 20, step: 5e-3, seed: 1);
        using var stream = new MemoryStream();
        using (var writer = new BinaryWriter(stream))
        {
            network.Write(writer);
        }

        ReadOnlySpan<byte> data = stream.ToArray();
        var read = DenseNetwork.Read(ref data);
        Assert.Equal(0, data.Length);
        var right = Enumerable.Range(0, 2000).Select(_ => Row(random)).Count(row => read.Sum(Array.ConvertAll(row.Numbers, value => (double)value)) > 0 == row.Label);
        Assert.InRange(right, 1900, 2000);

        // True where two numbers have one sign; a third is of another size and says nothing.
        static NetworkRow Row(Random random)
        {
            var numbers = new[] { (float)Draw.Normal(random), (float)Draw.Normal(random), 1000 + (100 * (float)Draw.Normal(random)) };
            return new(numbers, numbers[0] * numbers[1] > 0, 1);
        }
    }

    private static float[] Numbers(Random random, int count) => [.. Enumerable.Range(0, count).Select(_ => (float)Draw.Normal(random))];
}
