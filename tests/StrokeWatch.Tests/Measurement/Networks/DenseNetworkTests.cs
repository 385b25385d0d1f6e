using StrokeWatch.Measurement.Networks;
using Xunit;

namespace StrokeWatch.Tests.Measurement.Networks;

/// <summary>A network of two inputs, two hidden numbers and one output against values worked out by hand.</summary>
public sealed class DenseNetworkTests
{
    private static readonly double[] Kept = new double[2];

    [Theory]
    [InlineData(1, 0.5, 1, 0.5)]
    [InlineData(-3, 2, -1, 2)]
    [InlineData(9, -7, 4, -2)]
    [InlineData(double.NaN, double.PositiveInfinity, -1, 3)]
    public void It_gives_what_is_worked_out_by_hand_and_takes_no_input_beyond_what_it_was_trained_on(double first, double second, double takenFirst, double takenSecond)
    {
        ReadOnlySpan<byte> data = [.. Network(), 1, 2, 3];
        var network = DenseNetwork.Read(ref data);
        Assert.Equal(3, data.Length);
        Assert.Equal(2, network.Inputs);
        var (x, y) = ((takenFirst - 1) * 2, (takenSecond - 0.5) * 0.25);
        var expected = (3 * Unit((0.5 * x) - y + 0.1)) - (2 * Unit((1.5 * x) + (2 * y) - 0.2)) + 0.75;
        Assert.Equal(expected, network.Sum([first, second]), 1e-6);

        static double Unit(double value) => value / (1 + Math.Exp(-value));
    }

    [Fact]
    public void Nothing_is_allocated()
    {
        ReadOnlySpan<byte> data = Network();
        var network = DenseNetwork.Read(ref data);
        var sum = network.Sum(Kept);
        var before = GC.GetAllocatedBytesForCurrentThread();
        for (var i = 0; i < 1000; i++)
        {
            sum += network.Sum(Kept);
        }

        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 0, 500);
        Assert.True(double.IsFinite(sum));
    }

    [Fact]
    public void A_file_that_is_none_or_ends_too_early_is_said_to_be_so()
    {
        var whole = Network();
        for (var length = 0; length < whole.Length; length++)
        {
            var cut = whole[..length];
            Assert.Throws<ArgumentOutOfRangeException>(() => Read(cut));
        }

        Assert.Equal(2, DenseNetwork.ReadAll([.. whole, .. whole]).Length);
        Assert.Throws<ArgumentOutOfRangeException>(() => DenseNetwork.ReadAll([.. whole, .. whole[..^1]]));
        Assert.Throws<InvalidDataException>(() => Read([.. BitConverter.GetBytes(-1), .. whole[4..]]));
        Assert.Throws<InvalidDataException>(() => Read([.. BitConverter.GetBytes(100_000_000), .. whole[4..]]));

        static void Read(byte[] bytes)
        {
            ReadOnlySpan<byte> data = bytes;
            DenseNetwork.Read(ref data);
        }
    }

    private static byte[] Network()
    {
        using var stream = new MemoryStream();
        using var writer = new BinaryWriter(stream);
        writer.Write(2);
        Floats(-1, 4, 1, 2, -2, 3, 0.5f, 0.25f);
        writer.Write(2);
        writer.Write(2);
        Floats(0.5f, -1, 0.1f, 1.5f, 2, -0.2f);
        writer.Write(1);
        Floats(3, -2, 0.75f);
        return stream.ToArray();

        void Floats(params ReadOnlySpan<float> values)
        {
            foreach (var value in values)
            {
                writer.Write(value);
            }
        }
    }
}
