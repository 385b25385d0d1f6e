using StrokeWatch.Assessment.Trends;
using Xunit;

namespace StrokeWatch.Tests.Assessment.Trends;

public sealed class CusumChainTests
{
    /// <summary>Lucas and Crosier 1982, table 1 (as in <see cref="RunLengthTableTests"/>), two-sided charts with k = 0.5.</summary>
    [Theory]
    [InlineData(5, 0, 465)]
    [InlineData(4, 0, 168)]
    [InlineData(4, 1, 8.38)]
    public void It_gives_the_published_run_lengths_within_a_per_cent(double decision, double shift, double published)
    {
        var (rise, fall) = (CusumChain.OneSided(0.5, decision, new(shift)), CusumChain.OneSided(0.5, decision, new(-shift)));
        var both = 1 / ((1 / rise) + (1 / fall));
        Assert.InRange(both / published, 0.99, 1.01);
    }

    [Theory]
    [InlineData(0.5, 8, 1, double.PositiveInfinity)]
    [InlineData(1, 2.5, 1, double.PositiveInfinity)]
    [InlineData(0.9, 4, 1.2, 3)]
    public void It_agrees_with_the_integral_equation_where_that_is_sound(double allowance, double decision, double deviation, double limit)
    {
        var law = new IncrementLaw(0, deviation, limit);
        Assert.InRange(CusumChain.OneSided(allowance, decision, law) / CusumRunLength.OneSided(allowance, decision, law, 0, 200), 0.97, 1.03);
    }

    [Fact]
    public void A_longer_way_to_the_signal_never_gives_a_shorter_run()
    {
        var law = new IncrementLaw(0.1, 0.8, 3);
        var lengths = Enumerable.Range(4, 60).Select(h => CusumChain.OneSided(1.2, 0.5 * h, law)).ToList();
        Assert.Equal(lengths.Order(), lengths);
        Assert.All(lengths, length => Assert.True(length >= 1));
    }

    [Theory]
    [InlineData(8)]
    [InlineData(30)]
    [InlineData(500)]
    [InlineData(null)]
    public void Charts_for_long_runs_can_be_designed_and_reach_further_the_longer_the_run(int? readings)
    {
        var limits = new[] { 10_000.0, 75_000, 500_000 }.Select(run => TrendDesign.For(new() { RunLength = run, Shift = 2 }, readings).Decision).ToList();
        Assert.Equal(limits.Order(), limits);
        Assert.True(limits[2] > 1.1 * limits[0]);
    }
}
