using System.Buffers.Binary;

namespace StrokeWatch.Measurement.Trees;

/// <summary>
/// The sum of many small decision trees, grown one after the other so that each mends what those before it left (boosting: Friedman, Ann. Stat. 29 (2001) 1189, from memory).
/// </summary>
/// <remarks>
/// Little endian: trees; then of each tree the number of its nodes, of each node feature (two bytes), next node at or below the threshold and next node above (signed bytes,
/// leaves as one's complement) and threshold (float); then the leaves' values (floats). The benchmark project grows and writes them.
/// </remarks>
public sealed class DecisionForest
{
    private readonly int[] roots, leaves;
    private readonly ushort[] features;
    private readonly float[] thresholds, values;
    private readonly sbyte[] below, above;

    private DecisionForest(int[] roots, int[] leaves, ushort[] features, float[] thresholds, sbyte[] below, sbyte[] above, float[] values) =>
        (this.roots, this.leaves, this.features, this.thresholds, this.below, this.above, this.values) = (roots, leaves, features, thresholds, below, above, values);

    /// <summary>Gets the number of trees.</summary>
    public int Trees => roots.Length;

    /// <summary>Reads a forest and moves on to what follows it.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The data ends too early.</exception>
    public static DecisionForest Read(ref ReadOnlySpan<byte> data)
    {
        var trees = Int(ref data);
        var (roots, leaves) = (new int[trees], new int[trees]);
        var (features, thresholds, below, above, values) = (new List<ushort>(), new List<float>(), new List<sbyte>(), new List<sbyte>(), new List<float>());
        for (var tree = 0; tree < trees; tree++)
        {
            (roots[tree], leaves[tree]) = (features.Count, values.Count);
            var nodes = Int(ref data);
            for (var node = 0; node < nodes; node++)
            {
                features.Add(BinaryPrimitives.ReadUInt16LittleEndian(data));
                below.Add((sbyte)data[2]);
                above.Add((sbyte)data[3]);
                data = data[4..];
                thresholds.Add(Float(ref data));
            }

            for (var leaf = 0; leaf <= nodes; leaf++)
            {
                values.Add(Float(ref data));
            }
        }

        return new(roots, leaves, [.. features], [.. thresholds], [.. below], [.. above], [.. values]);
    }

    /// <summary>Gives the sum of the trees.</summary>
    /// <param name="numbers">The features, as many as the forest was grown on.</param>
    public double Sum(ReadOnlySpan<double> numbers)
    {
        var sum = 0.0;
        for (var tree = 0; tree < roots.Length; tree++)
        {
            var (root, node) = (roots[tree], 0);
            do
            {
                var i = root + node;
                node = numbers[features[i]] <= thresholds[i] ? below[i] : above[i];
            }
            while (node >= 0);
            sum += values[leaves[tree] + ~node];
        }

        return sum;
    }

    /// <summary>Reads a whole number and moves on.</summary>
    public static int Int(ref ReadOnlySpan<byte> data)
    {
        var value = BinaryPrimitives.ReadInt32LittleEndian(data);
        data = data[4..];
        return value;
    }

    /// <summary>Reads a number and moves on.</summary>
    public static float Float(ref ReadOnlySpan<byte> data)
    {
        var value = BinaryPrimitives.ReadSingleLittleEndian(data);
        data = data[4..];
        return value;
    }
}
