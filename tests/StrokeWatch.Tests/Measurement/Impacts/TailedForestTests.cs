using StrokeWatch.Measurement.Impacts;
using StrokeWatch.Measurement.Networks;
using StrokeWatch.Measurement.Trees;
using Xunit;

namespace StrokeWatch.Tests.Measurement.Impacts;

/// <summary>What a sum of the grown trees means: a probability at every rate and drive.</summary>
public sealed class TailedForestTests
{
    [Fact]
    public void A_greater_sum_is_never_likelier_and_reaches_from_certain_to_beyond_the_threshold_without_a_step()
    {
        foreach (var rate in new[] { 1000.0, 1099, 1100, 1250, 1600, 1799, 1800, 2500, 3200, 5000 })
        {
            foreach (var drive in new[] { 50.0, 120 })
            {
                foreach (var forest in new[] { TailedForest.Blows(rate), TailedForest.Onsets(rate) })
                {
                    Assert.Equal(0, forest.LogFalseAlarm(-1000, rate, drive));
                    Assert.True(forest.LogFalseAlarm(60, rate, drive) < Math.Log10(StrikeDetector.FalseAlarmAlone));
                    for (var sum = -100.0; sum < 60; sum += 0.001)
                    {
                        Assert.InRange(forest.LogFalseAlarm(sum, rate, drive) - forest.LogFalseAlarm(sum + 0.001, rate, drive), 0, 0.001);
                    }
                }
            }
        }
    }

    [Fact]
    public void Low_rates_have_trees_of_their_own()
    {
        Assert.Same(TailedForest.Blows(1100), TailedForest.Blows(1799));
        Assert.Same(TailedForest.Onsets(1800), TailedForest.Onsets(6400));
        Assert.Same(TailedForest.Onsets(950), TailedForest.Onsets(1099));
        Assert.NotSame(TailedForest.Blows(1100), TailedForest.Blows(3200));
        Assert.NotSame(TailedForest.Blows(1000), TailedForest.Blows(1100));
        foreach (var (rate, higher) in new[] { (1000, 1250), (1250, 3200) })
        {
            Assert.NotEqual(TailedForest.Blows(rate).Sum(new double[BlowFeatures.Count]), TailedForest.Blows(higher).Sum(new double[BlowFeatures.Count]));
            Assert.NotEqual(TailedForest.Onsets(rate).Sum(new double[OnsetFeatures.Count]), TailedForest.Onsets(higher).Sum(new double[OnsetFeatures.Count]));
        }
    }

    /// <summary>Below 1.1 kHz the sum is that of the trees and, beside it, a share of the networks' mean; from there on that of the trees.</summary>
    [Fact]
    public void Networks_weigh_beside_the_trees_of_changes_at_the_lowest_rates_only()
    {
        var numbers = Enumerable.Range(0, OnsetFeatures.Count).Select(i => Math.Sin(i)).ToArray();
        var networks = DenseNetwork.ReadAll(Resource("onset-lowest.network"));
        Assert.Equal(2, networks.Length);
        var beside = TailedForest.NetworkShare * (networks[0].Sum(numbers) + networks[1].Sum(numbers)) / 2;
        Assert.True(Math.Abs(beside) > 0.01);
        Assert.Equal(Trees("onset-lowest.forest").Sum(numbers) + beside, TailedForest.Onsets(1000).Sum(numbers), 9);
        Assert.Equal(Trees("onset-low.forest").Sum(numbers), TailedForest.Onsets(1250).Sum(numbers), 9);

        static DecisionForest Trees(string name)
        {
            ReadOnlySpan<byte> data = Resource(name);
            data = data[(8 + (7 * sizeof(float) * BitConverter.ToInt32(data[4..])))..];
            return DecisionForest.Read(ref data);
        }

        static byte[] Resource(string name)
        {
            using var stream = typeof(TailedForest).Assembly.GetManifestResourceStream(name)!;
            var data = new byte[stream.Length];
            stream.ReadExactly(data);
            return data;
        }
    }

    [Theory]
    [InlineData("strike-lowest.forest")]
    [InlineData("onset-lowest.forest")]
    public void No_leaf_of_a_forest_that_was_held_back_comes_near_a_threshold_by_itself(string name)
    {
        using var reader = new BinaryReader(typeof(TailedForest).Assembly.GetManifestResourceStream(name)!);
        reader.ReadInt32();
        reader.ReadBytes(7 * sizeof(float) * reader.ReadInt32());
        var greatest = 0f;
        for (var trees = reader.ReadInt32(); trees > 0; trees--)
        {
            var nodes = reader.ReadInt32();
            reader.ReadBytes(8 * nodes);
            for (var leaf = 0; leaf <= nodes; leaf++)
            {
                greatest = Math.Max(greatest, Math.Abs(reader.ReadSingle()));
            }
        }

        Assert.Equal(reader.BaseStream.Length, reader.BaseStream.Position);
        Assert.InRange(greatest, 0.1f, 2);
    }
}
