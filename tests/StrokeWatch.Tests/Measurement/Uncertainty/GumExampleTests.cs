using StrokeWatch.Measurement.Uncertainty;
using Xunit;

namespace StrokeWatch.Tests.Measurement.Uncertainty;

/// <summary>
/// The worked examples of JCGM 100:2008 (GUM), annex H. Data and published results: the pages on H.1, H.2 and H.3 in the manual of the GUM Tree Calculator
/// of the Measurement Standards Laboratory of New Zealand; the digits beyond the published ones: computed with mpmath and SciPy from the same data.
/// </summary>
public sealed class GumExampleTests
{
    // l ≈ l_s + d − l_s(δα·θ + α_s·δθ), in nm, with l_s = 50.000623 mm.
    private static UncertaintyComponent[] EndGauge()
    {
        const double Gauge = 50_000_623;
        const double Expansion = 11.5e-6;
        const double Temperature = -0.1;
        return
        [
            new("standard", 25, 1, 18),
            new("difference, repeated", 5.8, 1, 24),
            new("difference, comparator's random effects", 3.9, 1, 5),
            new("difference, comparator's systematic effects", 6.7, 1, 8),
            new("expansion of the standard", Distributions.Rectangular(2e-6), 0),
            new("difference of expansion", Distributions.Rectangular(1e-6), -Gauge * Temperature, 50),
            new("temperature, mean", 0.2, 0),
            new("temperature, cyclic", Distributions.Arcsine(0.5), 0),
            new("difference of temperature", Distributions.Rectangular(0.05), -Gauge * Expansion, 2),
        ];
    }

    [Fact]
    public void The_end_gauge_of_H_1_has_its_combined_and_expanded_uncertainty()
    {
        var budget = new UncertaintyBudget(EndGauge());
        var difference = new UncertaintyBudget(EndGauge()[1..4]);

        Assert.Equal(9.681941954, difference.Combined, 9);
        Assert.Equal(25.4472508, difference.EffectiveDegreesOfFreedom!.Value, 7);
        Assert.Equal(2.88678731, budget.Components[5].Contribution, 8);
        Assert.Equal(16.5990271, budget.Components[8].Contribution, 7);
        Assert.Equal(31.663879111, budget.Combined, 9);
        Assert.Equal(16.7518557, budget.EffectiveDegreesOfFreedom!.Value, 7);
        Assert.Equal(2.920781622, budget.CoverageFactor(0.99), 9);
        Assert.Equal(92.483276, budget.Expanded(0.99), 6);
    }

    [Fact]
    public void The_second_order_terms_of_H_1_make_34_nm_of_32()
    {
        const double Gauge = 50_000_623;
        var temperature = new UncertaintyBudget([new("mean", 0.2), new("cyclic", Distributions.Arcsine(0.5))]);
        var expansion = UncertaintyComponent.OfProduct("δα·θ", Gauge, Distributions.Rectangular(1e-6), temperature.Combined);
        var gradient = UncertaintyComponent.OfProduct("α·δθ", Gauge, Distributions.Rectangular(2e-6), Distributions.Rectangular(0.05));

        Assert.Equal(11.726186, expansion.Contribution, 6);
        Assert.Equal(1.6666874, gradient.Contribution, 7);
        Assert.Equal(33.8065454, new UncertaintyBudget([.. EndGauge(), expansion, gradient]).Combined, 7);
    }

    [Fact]
    public void Resistance_and_reactance_of_H_2_keep_the_correlations_of_what_was_observed_together()
    {
        var observed = RepeatedObservations.Of(
            [5.007, 4.994, 5.005, 4.99, 4.999],
            [19.663e-3, 19.639e-3, 19.640e-3, 19.685e-3, 19.678e-3],
            [1.0456, 1.0438, 1.0468, 1.0428, 1.0433]);
        var (v, i, phase) = (observed.Means[0], observed.Means[1], observed.Means[2]);
        var (sin, cos) = Math.SinCos(phase);
        var sensitivities = new[,]
        {
            { cos / i, -v * cos / (i * i), -v * sin / i },
            { sin / i, -v * sin / (i * i), v * cos / i },
            { 1 / i, -v / (i * i), 0 },
        };
        var covariance = Propagation.Covariance(sensitivities, observed.Covariance);
        var uncertainties = Propagation.StandardUncertainties(covariance);

        Assert.Equal(4.999, v, 12);
        Assert.Equal(19.661e-3, i, 12);
        Assert.Equal(1.04446, phase, 12);
        Assert.Equal(4, observed.DegreesOfFreedom);
        Assert.Equal(-0.3553112, Propagation.Correlation(observed.Covariance, 0, 1), 7);
        Assert.Equal(0.8576242, Propagation.Correlation(observed.Covariance, 0, 2), 7);
        Assert.Equal(-0.6451112, Propagation.Correlation(observed.Covariance, 1, 2), 7);
        Assert.Equal(127.7321699, v * cos / i, 7);
        Assert.Equal(219.8465119, v * sin / i, 7);
        Assert.Equal(254.2597019, v / i, 7);
        Assert.Equal(0.071071407, uncertainties[0], 9);
        Assert.Equal(0.29558168, uncertainties[1], 8);
        Assert.Equal(0.23633613, uncertainties[2], 8);
        Assert.Equal(-0.58842978, Propagation.Correlation(covariance, 0, 1), 8);
        Assert.Equal(-0.48525922, Propagation.Correlation(covariance, 0, 2), 8);
        Assert.Equal(0.99251165, Propagation.Correlation(covariance, 1, 2), 8);

        // A single result by the budget's own correlations is the same.
        var own = Propagation.StandardUncertainties(observed.Covariance);
        var budget = new UncertaintyBudget(
            [.. Enumerable.Range(0, 3).Select(n => new UncertaintyComponent($"{n}", own[n], sensitivities[0, n], 4))],
            [.. new[] { (0, 1), (0, 2), (1, 2) }.Select(pair => new Correlation(pair.Item1, pair.Item2, Propagation.Correlation(observed.Covariance, pair.Item1, pair.Item2)))]);
        Assert.Equal(uncertainties[0], budget.Combined, 12);
        Assert.Null(budget.EffectiveDegreesOfFreedom);
        Assert.Throws<InvalidOperationException>(() => budget.Expanded(0.95));
    }

    [Fact]
    public void The_thermometers_calibration_line_of_H_3_is_fitted_and_read_at_30_degrees()
    {
        double[] temperature = [21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.01, 26.511];
        double[] correction = [-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.16];
        var line = CalibrationLine.Fit(temperature, correction, 20);

        Assert.Equal(-0.171203790131, line.Intercept, 12);
        Assert.Equal(0.00287759784, line.InterceptUncertainty, 11);
        Assert.Equal(0.00218269773989, line.Slope, 14);
        Assert.Equal(0.000667938773, line.SlopeUncertainty, 12);
        Assert.Equal(-0.930429603, line.Correlation, 9);
        Assert.Equal(0.00349756396, line.ResidualDeviation, 11);
        Assert.Equal(9, line.DegreesOfFreedom);
        Assert.Equal(1.10096583109e-4, 9 * line.ResidualDeviation * line.ResidualDeviation, 14);
        Assert.Equal(-0.1493768127, line.At(30), 10);
        Assert.Equal(0.00413859575, line.UncertaintyAt(30), 11);
    }
}
