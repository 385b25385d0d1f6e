using StrokeWatch.Measurement.Uncertainty;
using Xunit;

namespace StrokeWatch.Tests.Measurement.Uncertainty;

public sealed class UncertaintyBudgetTests
{
    // GUM 4.3.7, 4.3.9 and H.1.3.4.
    [Fact]
    public void Bounds_become_standard_uncertainties_by_their_distribution()
    {
        Assert.Equal(0.5773502692, Distributions.Rectangular(1), 10);
        Assert.Equal(0.4082482905, Distributions.Triangular(1), 10);
        Assert.Equal(0.7071067812, Distributions.Arcsine(1), 10);
        Assert.Equal(0.5, Distributions.Normal(1, 2), 10);
    }

    // GUM table G.2 (two decimals), from memory.
    [Theory]
    [InlineData(0.95, 1, 12.71)]
    [InlineData(0.95, 5, 2.57)]
    [InlineData(0.9545, 20, 2.13)]
    [InlineData(0.99, 16, 2.92)]
    [InlineData(0.95, 5.9, 2.57)]
    [InlineData(0.95, double.PositiveInfinity, 1.96)]
    public void A_t_factor_is_the_tables_with_degrees_of_freedom_cut_down_to_a_whole_number(double coverage, double freedom, double factor)
    {
        Assert.Equal(factor, StudentFactor.For(coverage, freedom), 2);
        Assert.Equal(coverage, StudentFactor.Coverage(StudentFactor.For(coverage, freedom), freedom), 9);
    }

    [Fact]
    public void Fully_correlated_contributions_add_or_cancel()
    {
        UncertaintyComponent[] parts = [new("a", 3), new("b", 4)];
        Assert.Equal(5, new UncertaintyBudget(parts).Combined, 12);
        Assert.Equal(7, new UncertaintyBudget(parts, [new(0, 1, 1)]).Combined, 12);
        Assert.Equal(1, new UncertaintyBudget(parts, [new(0, 1, -1)]).Combined, 12);
    }

    [Fact]
    public void The_shares_of_independent_contributions_make_the_whole()
    {
        var budget = new UncertaintyBudget([new("a", 3, 2), new("b", 4, -0.5), new("c", 0)]);
        Assert.Equal(1, budget.Components.Sum(budget.Share), 12);
        Assert.Equal(0.9, budget.Share(budget.Components[0]), 12);
    }

    [Fact]
    public void A_budget_of_nothing_is_certain()
    {
        var budget = new UncertaintyBudget([]);
        Assert.Equal(0, budget.Combined);
        Assert.Equal(double.PositiveInfinity, budget.EffectiveDegreesOfFreedom);
    }

    [Theory]
    [InlineData(double.NaN, 1, 5)]
    [InlineData(-1, 1, 5)]
    [InlineData(double.PositiveInfinity, 1, 5)]
    [InlineData(1, double.NaN, 5)]
    [InlineData(1, 1, 0)]
    [InlineData(1, 1, double.NaN)]
    public void What_is_no_uncertainty_is_refused(double uncertainty, double sensitivity, double freedom) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new UncertaintyComponent("a", uncertainty, sensitivity, freedom));

    // The model D = 2a/(2πf)²/cos θ: 2 %, frequency 0.02 % (counted twice), alignment 0.5 %, repeatability 0.15 %; derived, checked by arithmetic.
    [Fact]
    public void The_stroke_models_four_contributions_make_2_067_percent()
    {
        var budget = new UncertaintyBudget(
            [new("sensitivity", 0.02), new("frequency", 2e-4, -2), new("alignment", 0.005), new("repeatability", 0.0015)]);
        Assert.Equal(0.0206738966, budget.Combined, 10);
    }
}
