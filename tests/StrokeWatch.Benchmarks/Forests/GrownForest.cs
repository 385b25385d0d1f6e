using Microsoft.ML;
using Microsoft.ML.Data;
using Microsoft.ML.Trainers.FastTree;

namespace StrokeWatch.Benchmarks.Forests;

/// <summary>Grows decision trees by boosting (ML.NET's FastTree) and writes them as <see cref="StrokeWatch.Measurement.Trees.DecisionForest"/> reads them.</summary>
internal sealed class GrownForest
{
    private readonly List<(int[] Features, float[] Thresholds, int[] Below, int[] Above, double[] Values)> trees;

    private GrownForest(RegressionTreeEnsemble ensemble) => trees =
    [
        .. ensemble.Trees.Select((tree, i) => (
            tree.NumericalSplitFeatureIndexes.ToArray(),
            tree.NumericalSplitThresholds.ToArray(),
            tree.LeftChild.ToArray(),
            tree.RightChild.ToArray(),
            tree.LeafValues.Select(value => value * ensemble.TreeWeights[i]).ToArray())).Where(tree => tree.Item1.Length > 0),
    ];

    /// <summary>Grows a forest that tells true rows from others.</summary>
    public static GrownForest Grow(IEnumerable<ForestRow> rows, int features, int trees, int leaves, double step, int fewest = 20)
    {
        var context = new MLContext(1);
        var schema = SchemaDefinition.Create(typeof(ForestRow));
        schema[nameof(ForestRow.Features)].ColumnType = new VectorDataViewType(NumberDataViewType.Single, features);
        var trainer = context.BinaryClassification.Trainers.FastTree(new FastTreeBinaryTrainer.Options
        {
            NumberOfTrees = trees,
            NumberOfLeaves = leaves,
            MinimumExampleCountPerLeaf = fewest,
            LearningRate = step,
            FeatureFraction = 0.5,
            BaggingSize = 1,
            BaggingExampleFraction = 0.7,
            NumberOfThreads = Environment.ProcessorCount,
            Seed = 1,
        });
        return new(trainer.Fit(context.Data.LoadFromEnumerable(rows, schema)).Model.SubModel.TrainedTreeEnsemble);
    }

    /// <summary>Gives the sum of the trees.</summary>
    public double Sum(float[] numbers)
    {
        var sum = 0.0;
        foreach (var (features, thresholds, below, above, values) in trees)
        {
            var node = 0;
            do
            {
                node = numbers[features[node]] <= thresholds[node] ? below[node] : above[node];
            }
            while (node >= 0);
            sum += values[~node];
        }

        return sum;
    }

    /// <summary>Writes the forest.</summary>
    public void Write(BinaryWriter writer)
    {
        writer.Write(trees.Count);
        foreach (var (features, thresholds, below, above, values) in trees)
        {
            writer.Write(features.Length);
            for (var node = 0; node < features.Length; node++)
            {
                writer.Write((byte)features[node]);
                writer.Write((sbyte)below[node]);
                writer.Write((sbyte)above[node]);
                writer.Write(thresholds[node]);
            }

            foreach (var value in values)
            {
                writer.Write((float)value);
            }
        }
    }
}
