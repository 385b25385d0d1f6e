using StrokeWatch.Measurement.Impacts;
using Xunit;

namespace StrokeWatch.Tests.Measurement.Impacts;

/// <summary>What a window gives on for those after it to be compared with.</summary>
public sealed class StrikeDetectorTests
{
    /// <summary>
    /// A machine whose cycles are alike varies nowhere in the cycle. Where few samples make a cycle, a reading between them lets it seem to, by more than a sensor of the quieter sort does (1 mg of 10 g: a hundred millionth in power).
    /// </summary>
    [Theory]
    [InlineData(1000, 50)]
    [InlineData(1000, 100)]
    [InlineData(1600, 120)]
    [InlineData(2000, 60)]
    public void Cycles_that_are_alike_vary_nowhere_at_low_rates(int rate, int drive)
    {
        var frequency = drive * 1.00137 / rate;
        var orders = (int)(0.45 / frequency);
        var line = Fitted.Line(rate / 2, t => Enumerable.Range(1, orders).Sum(k => 100 * Math.Pow(k, -1.5) * Math.Cos((2 * Math.PI * k * frequency * t) + (k * k))));
        var fit = Fitted.Fit(line, frequency, orders);
        var detector = new StrikeDetector();

        Assert.NotNull(detector.Judge(line, fit, Fitted.Path(fit), rate));
        Assert.Equal(0, detector.Heard.Varied.Sum() / (100 * 100), 1e-12);
    }
}
