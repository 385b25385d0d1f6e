using StrokeWatch.Benchmarks;
using Xunit;

namespace StrokeWatch.Tests.Measurement;

/// <summary>
/// A seeded part of the benchmark project's <c>efficiency</c> command: the spread of the fundamental's amplitude against the Cramér-Rao bound
/// sd(A) = σ√(2/N) (Kay, Fundamentals of Statistical Signal Processing I, ex. 3.14, from memory; Rife and Boorstyn, IEEE Trans. IT-20, 1974).
/// </summary>
public sealed class EfficiencyTests
{
    [Theory]
    [InlineData(50, 1000, 0.1e-3)]
    [InlineData(60, 3200, 0.5e-3)]
    [InlineData(100, 6400, 0.1e-3)]
    [InlineData(120, 1600, 0.4e-3)]
    public void The_fundamental_is_as_good_as_the_noise_allows_and_its_uncertainty_is_right(double hertz, double rate, double stroke)
    {
        var study = Efficiency.Study(hertz, rate, stroke, runs: 400, seed: 12);

        // Tolerances of a standard deviation and a share from 400 runs: 3.5 % and 1.1 % (k = 1).
        Assert.InRange(study.OverBound, 0.88, 1.12);
        Assert.InRange(study.Bias, -2e-4 - 3 * study.BiasDeviation, 2e-4 + 3 * study.BiasDeviation);
        Assert.InRange(study.Coverage, 0.92, 0.985);
    }
}
