using StrokeWatch.Measurement.Impacts;
using Xunit;

namespace StrokeWatch.Tests.Measurement.Impacts;

public sealed class LowOrderWaveTests
{
    [Theory]
    [InlineData(1)]
    [InlineData(40)]
    [InlineData(41)]
    [InlineData(1999)]
    [InlineData(2000)]
    [InlineData(517)]
    public void It_is_the_sum_of_the_orders_less_what_their_second_difference_lets_through(int samples)
    {
        var random = new Random(samples);
        foreach (var orders in new[] { 0, 1, 2, 6, 12 })
        {
            var (frequency, lag) = (0.0123 + (0.02 * random.NextDouble()), 1 + random.Next(4));
            var c = Enumerable.Range(0, orders + 1).Select(_ => random.NextDouble() - 0.5).ToArray();
            var s = Enumerable.Range(0, orders + 1).Select(_ => random.NextDouble() - 0.5).ToArray();
            var wave = new LowOrderWave();
            wave.Take(c, s, orders, frequency, lag, samples);
            double Signal(double t) => Enumerable.Range(1, orders).Sum(k => (c[k] * Math.Cos(2 * Math.PI * k * frequency * t)) + (s[k] * Math.Sin(2 * Math.PI * k * frequency * t)));
            Assert.Equal(samples, wave.Values.Length);
            for (var n = 0; n < samples; n++)
            {
                var t = n - (0.5 * (samples - 1));
                Assert.Equal(Signal(t) - (0.5 * (Signal(t - lag) + Signal(t + lag))), wave.Values[n], 1e-11);
            }
        }
    }
}
