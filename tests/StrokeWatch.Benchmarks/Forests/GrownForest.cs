using Microsoft.ML;
using Microsoft.ML.Data;
using Microsoft.ML.Trainers.FastTree;

namespace StrokeWatch.Benchmarks.Forests;

/// <summary>Grows decision trees by boosting (ML.NET's FastTree) and writes them as <see cref="StrokeWatch.Measurement.Trees.DecisionForest"/> reads them.</summary>
internal sealed class GrownForest
{
    private readonly List<(int[] Features, float[] Thresholds, int[] Below, int[] Above, double[] Values)> trees;

    private GrownForest(IReadOnlyCollection<RegressionTreeEnsemble> ensembles) => trees =
    [
        .. ensembles.SelectMany(ensemble => ensemble.Trees.Select((tree, i) => (
            tree.NumericalSplitFeatureIndexes.ToArray(),
            tree.NumericalSplitThresholds.ToArray(),
            tree.LeftChild.ToArray(),
            tree.RightChild.ToArray(),
            tree.LeafValues.Select(value => value * ensemble.TreeWeights[i] / ensembles.Count).ToArray()))).Where(tree => tree.Item1.Length > 0),
    ];

    /// <summary>Grows a forest that tells true rows from others.</summary>
    /// <param name="rows">The rows.</param>
    /// <param name="features">Numbers of a row.</param>
    /// <param name="trees">Trees of a forest.</param>
    /// <param name="leaves">Leaves of a tree.</param>
    /// <param name="step">Step of the boosting.</param>
    /// <param name="fewest">Rows of a leaf.</param>
    /// <param name="forests">So many forests are grown from different seeds and their sums averaged: what one of them is wrongly sure of the others are not.</param>
    public static GrownForest Grow(IEnumerable<ForestRow> rows, int features, int trees, int leaves, double step, int fewest = 20, int forests = 1)
    {
        var context = new MLContext(1);
        var schema = SchemaDefinition.Create(typeof(ForestRow));
        schema[nameof(ForestRow.Features)].ColumnType = new VectorDataViewType(NumberDataViewType.Single, features);
        var data = context.Data.LoadFromEnumerable(rows, schema);
        return new([.. Enumerable.Range(1, forests).Select(Ensemble)]);

        RegressionTreeEnsemble Ensemble(int seed) => context.BinaryClassification.Trainers.FastTree(new FastTreeBinaryTrainer.Options
        {
            NumberOfTrees = trees,
            NumberOfLeaves = leaves,
            MinimumExampleCountPerLeaf = fewest,
            LearningRate = step,
            FeatureFraction = 0.5,
            BaggingSize = 1,
            BaggingExampleFraction = 0.7,
            NumberOfThreads = Environment.ProcessorCount,
            Seed = seed,
        }).Fit(data).Model.SubModel.TrainedTreeEnsemble;
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
                writer.Write((ushort)features[node]);
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
