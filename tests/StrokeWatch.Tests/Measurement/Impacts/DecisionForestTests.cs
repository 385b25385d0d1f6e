using StrokeWatch.Measurement.Trees;
using Xunit;

namespace StrokeWatch.Tests.Measurement.Impacts;

public sealed class DecisionForestTests
{
    [Theory]
    [InlineData(0, 0, 1 + 10)]
    [InlineData(1.5, 0, 2 + 10)]
    [InlineData(1.5, 7, 3 + 20)]
    [InlineData(0, 7, 1 + 20)]
    public void Trees_are_walked_from_the_root_and_their_leaves_added_up(double first, double second, double sum)
    {
        using var memory = new MemoryStream();
        using var writer = new BinaryWriter(memory);
        writer.Write(2);
        writer.Write(2);
        Node(0, ~0, 1, 1);
        Node(1, ~1, ~2, 5);
        Leaves(1, 2, 3);
        writer.Write(1);
        Node(1, ~0, ~1, 6.5f);
        Leaves(10, 20);
        writer.Write(99);
        ReadOnlySpan<byte> data = memory.ToArray();

        var forest = DecisionForest.Read(ref data);

        Assert.Equal(2, forest.Trees);
        Assert.Equal(sum, forest.Sum([first, second]));
        Assert.Equal(99, DecisionForest.Int(ref data));
        Assert.True(data.IsEmpty);

        void Node(ushort feature, int below, int above, float threshold)
        {
            writer.Write(feature);
            writer.Write((sbyte)below);
            writer.Write((sbyte)above);
            writer.Write(threshold);
        }

        void Leaves(params float[] values) => Array.ForEach(values, writer.Write);
    }

    [Fact]
    public void A_forest_that_ends_too_early_is_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() =>
        {
            ReadOnlySpan<byte> data = [1, 0, 0, 0, 1, 0];
            DecisionForest.Read(ref data);
        });
    }
}
