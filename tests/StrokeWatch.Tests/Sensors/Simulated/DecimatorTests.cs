using StrokeWatch.Sensors.Simulated;
using Xunit;

namespace StrokeWatch.Tests.Sensors.Simulated;

public sealed class DecimatorTests
{
    [Theory]
    [InlineData(0.02, 1, 1e-4)]
    [InlineData(0.25, 1, 1e-4)]
    [InlineData(0.42, 1, 1e-4)]
    [InlineData(0.58, 0, 1e-4)]
    [InlineData(0.98, 0, 1e-4)]
    [InlineData(3.3, 0, 1e-4)]
    public void What_belongs_to_the_lower_rate_passes_and_what_would_fold_back_does_not(double relative, double gain, double tolerance)
    {
        const int factor = 20;
        var decimator = new Decimator(factor);
        double peak = 0;
        for (var n = 0; n < 40000; n++)
        {
            var value = Math.Sin(2 * Math.PI * relative * n / factor);
            decimator.Push((value, 1, 0));
            if (n > 2 * decimator.Delay + 1 && n % 7 == 0)
            {
                var (x, one, zero) = decimator.Value();
                peak = Math.Max(peak, Math.Abs(x));
                Assert.Equal(1, one, 12);
                Assert.Equal(0, zero);
                Assert.Equal(gain * Math.Sin(2 * Math.PI * relative * (n - decimator.Delay) / factor), x, tolerance);
            }
        }

        Assert.Equal(gain, peak, 2e-3);
    }
}
