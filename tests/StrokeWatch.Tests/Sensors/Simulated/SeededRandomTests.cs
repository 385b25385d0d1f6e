using StrokeWatch.Sensors.Simulated;
using Xunit;

namespace StrokeWatch.Tests.Sensors.Simulated;

public sealed class SeededRandomTests
{
    [Fact]
    public void Its_numbers_have_the_moments_that_they_should()
    {
        var random = new SeededRandom(7, 0);
        const int n = 200_000;
        var uniform = Enumerable.Range(0, n).Select(_ => random.Uniform()).ToArray();
        var normal = Enumerable.Range(0, n).Select(_ => random.Normal()).ToArray();
        var exponential = Enumerable.Range(0, n).Select(_ => random.Exponential()).ToArray();

        // Five standard errors of each estimate.
        Assert.Equal(0.5, uniform.Average(), 5 * Math.Sqrt(1.0 / 12 / n));
        Assert.Equal(0, normal.Average(), 5 / Math.Sqrt(n));
        Assert.Equal(1, normal.Average(v => v * v), 5 * Math.Sqrt(2.0 / n));
        Assert.Equal(3, normal.Average(v => v * v * v * v), 5 * Math.Sqrt(96.0 / n));
        Assert.Equal(1, exponential.Average(), 5 / Math.Sqrt(n));
        Assert.All(uniform, v => Assert.InRange(v, 0, 1));
    }

    [Fact]
    public void Streams_of_one_seed_do_not_go_together()
    {
        var a = new SeededRandom(7, 1);
        var b = new SeededRandom(7, 2);
        const int n = 50_000;
        Assert.Equal(0, Enumerable.Range(0, n).Average(_ => a.Normal() * b.Normal()), 5 / Math.Sqrt(n));
    }
}
