using StrokeWatch.Measurement.Calibration;
using StrokeWatch.Measurement.Stroke;
using Xunit;

namespace StrokeWatch.Tests.Measurement;

public sealed class StrokeBudgetTests
{
    // Relative u² of D = 2a/(2πf)²/cos θ: sensitivity 2 %, frequency 0.02 % counted twice, alignment 0.5 %, repeatability 0.15 %: 2.06738966 % (derived, mpmath).
    [Fact]
    public void The_strokes_contributions_make_2_067_percent()
    {
        const double Stroke = 1.7e-3;
        var contributions = new StrokeContributions(
            [
                new(StrokeContributions.Sensitivity, 0.02, double.PositiveInfinity, ""),
                new(StrokeContributions.Frequency, 2 * 2e-4, double.PositiveInfinity, ""),
                new(StrokeContributions.Alignment, 0.005, double.PositiveInfinity, ""),
            ],
            sensitivityAssumed: false);
        var budget = StrokeBudget.Of(Stroke, contributions, noise: 0, scatter: 0.0015 * Stroke / 1.2533 * 4, windows: 16);

        Assert.Equal(0.0206738966, budget.Combined / Stroke, 9);
        Assert.Equal(1, budget.Components.Sum(budget.Share), 9);
        Assert.Equal(15, budget.Components.Single(part => part.Name == StrokeBudget.Repeatability).DegreesOfFreedom);
    }

    [Theory]
    [InlineData(1e-6, 5e-6)]
    [InlineData(5e-6, 1e-6)]
    [InlineData(3e-6, 3e-6)]
    public void The_windows_scatter_holds_their_noise_and_neither_counts_twice(double noise, double scatter)
    {
        var budget = StrokeBudget.Of(1.7e-3, StrokeContributions.None, noise, scatter, 9);
        Assert.Equal(1.2533 * Math.Max(noise, scatter) / 3, budget.Combined, 12);
    }

    [Fact]
    public void One_window_alone_shows_no_repeatability()
    {
        var budget = StrokeBudget.Of(1.7e-3, StrokeContributions.None, 2e-6, 0, 1);
        Assert.Equal(0, budget.Components.Single(part => part.Name == StrokeBudget.Repeatability).Contribution);
        Assert.Equal(1.2533 * 2e-6, budget.Combined, 12);
    }

    [Fact]
    public void Nothing_known_is_a_sensor_right_within_two_percent()
    {
        var assumed = new StrokeContributions();
        Assert.True(assumed.SensitivityAssumed);
        Assert.Equal(Math.Sqrt(0.02 * 0.02 / 3 + 4e-4 * 4e-4 + 1e-3 * 1e-3), assumed.Combined, 15);
        Assert.Equal(0, StrokeContributions.None.Combined);
    }

    // exp(−(2πfσ)²/2): the abstract of Corrêa Alegria and Cruz Serra on jitter in sine fitting; digits computed with mpmath.
    [Theory]
    [InlineData(60, 100e-6, 0.99928964091)]
    [InlineData(120, 20e-6, 0.99988630862)]
    [InlineData(60, 1e-3, 0.9314049334)]
    public void Jitter_takes_its_share_of_the_amplitude(double hertz, double jitter, double share) =>
        Assert.Equal(share, TimingJitter.Share(hertz, jitter), 10);

    [Fact]
    public void A_comparison_counts_the_reference_and_its_own_noise_but_not_the_sensitivity_it_finds()
    {
        var own = StrokeBudget.Of(1.632e-3, new(), noise: 1e-6, scatter: 1e-6, windows: 4);
        var budget = ComparisonFit.Budget(own, 1.632e-3, 1.6e-3, 0.004e-3);

        Assert.Equal(1.02, ComparisonFit.Gain(1.632e-3, 1.6e-3), 12);
        Assert.DoesNotContain(budget.Components, part => part.Name == StrokeContributions.Sensitivity);
        Assert.Equal(0.00125, budget.Components[0].Contribution, 12);
        var random = 1.2533 * 1e-6 / 2 / 1.632e-3;
        Assert.Equal(Math.Sqrt(0.00125 * 0.00125 + random * random + 4e-4 * 4e-4 + 1e-3 * 1e-3), budget.Combined, 9);
    }
}
