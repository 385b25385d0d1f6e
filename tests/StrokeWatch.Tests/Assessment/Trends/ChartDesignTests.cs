using StrokeWatch.Assessment.Trends;
using Xunit;

namespace StrokeWatch.Tests.Assessment.Trends;

public sealed class ChartDesignTests
{
    /// <summary>The tables read backwards: Montgomery's k = 0.5 with h = 4.77 gives 370 (from memory), h = 5 gives 465.4435 (computed).</summary>
    [Theory]
    [InlineData(465.4435, 1, 5, 1e-5)]
    [InlineData(167.6838, 1, 4, 1e-5)]
    [InlineData(370, 1, 4.77, 0.006)]
    public void A_sum_is_designed_by_its_run_length(double runLength, double shift, double decision, double rounding)
    {
        var design = CusumDesign.For(runLength, shift);
        Assert.Equal(0.5 * shift, design.Allowance, 1e-12);
        Assert.Equal(decision, design.Decision, rounding);
    }

    [Theory]
    [InlineData(100, 0.5, false)]
    [InlineData(1000, 1, true)]
    [InlineData(5000, 2, false)]
    [InlineData(20, 3, true)]
    public void A_design_has_the_run_length_that_was_asked_for(double runLength, double shift, bool fast)
    {
        var design = CusumDesign.For(runLength, shift, 3, fast);
        Assert.Equal(runLength, design.RunLengthAt(0), runLength * 1e-6);
        Assert.True(design.RunLengthAt(shift) < 0.3 * runLength);
    }

    /// <summary>The pairs of λ and L in Montgomery's table 9.10 hold for fixed limits; with exact limits they signal sooner, so that L must be a little larger.</summary>
    [Theory]
    [InlineData(0.4, 3.054)]
    [InlineData(0.1, 2.814)]
    [InlineData(0.05, 2.615)]
    public void Exact_limits_need_a_little_more_width(double weight, double published)
    {
        var design = EwmaDesign.For(500, weight);
        Assert.InRange(design.Width, published, published + 0.15);
        Assert.Equal(500, design.RunLengthAt(0), 1e-3);
        Assert.True(EwmaRunLength.ExactLimits(weight, published, new(0)) < EwmaRunLength.FixedLimits(weight, published, new(0)));
    }

    /// <summary>Against the chart itself, run on seeded readings.</summary>
    [Theory]
    [InlineData(0.1, 2.5, 0, 4000)]
    [InlineData(0.1, 2.5, 1, 20000)]
    [InlineData(0.3, 2.7, 2, 20000)]
    public void Exact_limits_run_as_long_as_the_chart_does(double weight, double width, double shift, int runs)
    {
        var normal = new NormalReadings(11);
        double sum = 0, squares = 0;
        for (var run = 0; run < runs; run++)
        {
            var chart = new Ewma(weight, width);
            var readings = 0;
            do
            {
                chart.Add(normal.Next() + shift);
                readings++;
            }
            while (chart.Signal == 0);
            sum += readings;
            squares += (double)readings * readings;
        }

        var mean = sum / runs;
        var error = Math.Sqrt((squares / runs - mean * mean) / runs);
        Assert.InRange(EwmaRunLength.ExactLimits(weight, width, new(shift)), mean - 4 * error, mean + 4 * error);
    }

    [Fact]
    public void The_best_weight_for_a_small_shift_is_small_and_no_other_is_sooner()
    {
        var best = EwmaDesign.ForShift(500, 1);
        Assert.InRange(best.Weight, 0.05, 0.25);
        Assert.All(new[] { (0.05, 2.615), (0.4, 3.054) }, other => Assert.True(EwmaRunLength.FixedLimits(other.Item1, other.Item2, new(1)) > 10.3));
        Assert.True(EwmaRunLength.FixedLimits(best.Weight, best.Width, new(1)) < 10.4);
        Assert.True(EwmaDesign.ForShift(500, 3).Weight > best.Weight);
    }

    [Fact]
    public void A_limited_reading_never_exceeds_its_limit_and_small_ones_pass()
    {
        Assert.Equal(1, SoftLimit.Of(1, 3), 0.005);
        Assert.Equal(-3, SoftLimit.Of(-1e200, 3), 1e-9);
        Assert.Equal(5, SoftLimit.Of(5, double.PositiveInfinity));
        Assert.Equal(2.7, SoftLimit.Of(SoftLimit.Undo(2.7, 3).Reading, 3), 1e-12);
        var law = new IncrementLaw(0.4, 1.2, 3);
        Assert.Equal((law.Below(1.5001) - law.Below(1.4999)) / 2e-4, law.Density(1.5), 1e-6);
        Assert.Equal(1, law.Below(3), 1e-15);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(double.NaN)]
    [InlineData(1e9)]
    public void A_run_length_out_of_range_is_refused(double runLength) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => CusumDesign.For(runLength, 1));
}
