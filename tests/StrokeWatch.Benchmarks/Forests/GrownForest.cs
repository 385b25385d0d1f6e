using Microsoft.ML;
using Microsoft.ML.Data;
using Microsoft.ML.Trainers.FastTree;
using Microsoft.ML.Trainers.LightGbm;

namespace StrokeWatch.Benchmarks.Forests;

/// <summary>Grows decision trees by boosting (ML.NET's FastTree or LightGBM) and writes them as <see cref="StrokeWatch.Measurement.Trees.DecisionForest"/> reads them.</summary>
internal sealed class GrownForest
{
    private const int FewestRows = 50;

    /// <summary>The penalty on the squares of leaves' values, and the least that p(1 − p) of a leaf's rows sums up to.</summary>
    private const double Penalty = 10, LeastWeight = 10;

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

    /// <summary>Grows a forest that tells true rows from others, where there are few rows.</summary>
    /// <param name="rows">The rows.</param>
    /// <param name="features">Numbers of a row.</param>
    /// <param name="trees">Trees of a forest.</param>
    /// <param name="leaves">Leaves of a tree.</param>
    /// <param name="step">Step of the boosting.</param>
    /// <param name="fewest">Rows of a leaf.</param>
    public static GrownForest Grow(IEnumerable<ForestRow> rows, int features, int trees, int leaves, double step, int fewest)
    {
        var (context, data) = Loaded(rows, features);
        return new([context.BinaryClassification.Trainers.FastTree(new FastTreeBinaryTrainer.Options
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
        }).Fit(data).Model.SubModel.TrainedTreeEnsemble]);
    }

    /// <summary>
    /// Grows a forest that tells true rows from others where there are many rows and what counts is the outermost tail of its sums: the values of the leaves are held back by a penalty on their squares, and a leaf must hold so much that is
    /// not yet told. Without, a leaf of a few rows wrongly told takes a step as large as all trees together, and the sum of some other row with it.
    /// </summary>
    /// <param name="rows">The rows.</param>
    /// <param name="features">Numbers of a row.</param>
    /// <param name="trees">Trees of a forest.</param>
    /// <param name="leaves">Leaves of a tree.</param>
    /// <param name="step">Step of the boosting.</param>
    /// <param name="forests">So many forests are grown from different seeds and their sums averaged: what one of them is wrongly sure of the others are not.</param>
    public static GrownForest GrowHeldBack(IEnumerable<ForestRow> rows, int features, int trees, int leaves, double step, int forests)
    {
        var (context, data) = Loaded(rows, features);
        return new([.. Enumerable.Range(1, forests).Select(seed => context.BinaryClassification.Trainers.LightGbm(new LightGbmBinaryTrainer.Options
        {
            NumberOfIterations = trees,
            NumberOfLeaves = leaves,
            MinimumExampleCountPerLeaf = FewestRows,
            LearningRate = step,
            Sigmoid = 1,
            HandleMissingValue = false,
            NumberOfThreads = Environment.ProcessorCount,
            Seed = seed,
            Booster = new GradientBooster.Options
            {
                L2Regularization = Penalty,
                MinimumChildWeight = LeastWeight,
                FeatureFraction = 0.3,
                SubsampleFraction = 0.7,
                SubsampleFrequency = 1,
            },
        }).Fit(data).Model.SubModel.TrainedTreeEnsemble)]);
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

    private static (MLContext Context, IDataView Data) Loaded(IEnumerable<ForestRow> rows, int features)
    {
        var context = new MLContext(1);
        var schema = SchemaDefinition.Create(typeof(ForestRow));
        schema[nameof(ForestRow.Features)].ColumnType = new VectorDataViewType(NumberDataViewType.Single, features);
        return (context, context.Data.LoadFromEnumerable(rows, schema));
    }
}
