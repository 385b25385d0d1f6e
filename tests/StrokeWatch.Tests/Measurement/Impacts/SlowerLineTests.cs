using StrokeWatch.Measurement.Impacts;
using StrokeWatch.Measurement.Stroke;
using Xunit;

namespace StrokeWatch.Tests.Measurement.Impacts;

/// <summary>A window as a slower sensor would give it, against the sines that were sampled and against a fit of the slower window itself.</summary>
public sealed class SlowerLineTests
{
    [Theory]
    [InlineData(900)]
    [InlineData(5999, 1)]
    [InlineData(6400, 2)]
    [InlineData(12_800, 4)]
    [InlineData(25_600, 8)]
    public void Only_a_fast_line_is_slowed_down(double rate, int every = 1) => Assert.Equal(every, SlowerLine.Every(rate));

    /// <summary>Shares of the slower rate: what it can hold stays in its place, counted from the middle; what would fold is dropped.</summary>
    [Fact]
    public void What_the_slower_rate_can_hold_stays_and_the_rest_does_not_fold()
    {
        var slower = new SlowerLine();
        foreach (var (every, odd) in new[] { (2, 0), (3, 1), (2, 1), (8, 0), (3, 0) })
        {
            var count = (300 * every) + odd;
            foreach (var (share, most) in new[] { (0.05, 0.003), (0.3, 0.003), (0.4, 0.003), (0.44, 0.003) })
            {
                // Two poles of Butterworth's at 0.36 of the slower rate, by the bilinear transform.
                var over = Math.Tan(Math.PI * share / every) / Math.Tan(Math.PI * 0.36 / every);
                var (size, lag) = (1 / Math.Sqrt(1 + Math.Pow(over, 4)), Math.Atan2(Math.Sqrt(2) * over, 1 - (over * over)));
                var values = slower.Take(Fitted.Line(count, t => Math.Cos((2 * Math.PI * share / every * t) + 0.3)), every).ToArray();
                double At(double cycles) => size * Math.Cos((2 * Math.PI * cycles) + 0.3 - lag);
                Assert.InRange(values.Length, 250, 253);
                for (var i = 2; i < values.Length; i++)
                {
                    Assert.Equal(At(share * (i - (0.5 * (values.Length - 1)))), values[i], most);
                }
            }

            foreach (var (share, most) in new[] { (0.56, 0.01), (0.7, 0.003), (0.49 * every, 0.003) })
            {
                Assert.All(slower.Take(Fitted.Line(count, t => Math.Cos((2 * Math.PI * share / every * t) + 0.3)), every).ToArray(), value => Assert.InRange(value, -most, most));
            }
        }
    }

    [Fact]
    public void A_line_too_short_to_be_slowed_down_gives_nothing()
    {
        foreach (var count in new[] { 0, 1, 96, 97 })
        {
            Assert.Equal(0, new SlowerLine().Take(new double[count], 2).Length);
        }
    }

    [Theory]
    [InlineData(6400, 50, 3200)]
    [InlineData(6400, 120, 3199)]
    [InlineData(25_600, 60, 12_800)]
    public void The_slower_harmonics_are_those_that_a_fit_of_the_slower_window_gives(int rate, int drive, int count)
    {
        var random = new Random(rate + drive);
        var frequency = 1.0003 * drive / rate;
        var waves = Enumerable.Range(0, 6).Select(k => (Size: 100.0 / (1 + (k * k)), Phase: 6 * random.NextDouble())).ToArray();
        var line = Fitted.Line(count, t => Enumerable.Range(1, 5).Sum(k => waves[k].Size * Math.Cos((2 * Math.PI * k * frequency * t) + waves[k].Phase)) + (0.3 * Signal.Gauss(random)));
        var fast = Fit(line, frequency);
        var (every, toldRate) = (SlowerLine.Every(rate), (double)rate);
        var path = Fitted.Path(fast);
        var told = new SlowerHarmonics().Of(fast, ref path, ref toldRate);
        var slow = Fit(new SlowerLine().Take(line, every).ToArray(), frequency * every);

        Assert.Equal(rate / (double)every, toldRate);
        Assert.Equal((slow.Frequency, slow.Orders), (told.Frequency, told.Orders));
        Assert.Equal(told.Orders + 1, told.Cosine(0).Length);
        Assert.InRange(told.Count, slow.Count, slow.Count + 55);
        for (var k = 1; k <= 5; k++)
        {
            Assert.Equal(slow.Cosine(0)[k], told.Cosine(0)[k], 0.1);
            Assert.Equal(slow.Sine(0)[k], told.Sine(0)[k], 0.1);
            Assert.Equal((told.Cosine(0)[k], told.Sine(0)[k]), (path.LineCosine[k], path.LineSine[k]));
        }

        // What noise makes of a coefficient: the corner and the filter's edge take some of it off, the shorter window adds a little.
        double Noise(IWindowHarmonics fit) => fit.ResidualDeviation * Math.Sqrt(fit.CoefficientShare);
        Assert.InRange(Noise(slow) / Noise(told), 0.8, 1.05);
    }

    [Fact]
    public void The_harmonics_of_a_slow_sensor_are_as_they_are()
    {
        var fit = Fit(Fitted.Line(500, t => Math.Cos(2 * Math.PI * 0.05 * t)), 0.05);
        var path = Fitted.Path(fit);
        var rate = 1000.0;
        Assert.Same(fit, new SlowerHarmonics().Of(fit, ref path, ref rate));
        Assert.Equal(1000, rate);
    }

    /// <summary>Fits as many orders as the meter would.</summary>
    private static HarmonicFit Fit(double[] line, double frequency) => Fitted.Fit(line, frequency, Math.Min(40, (int)(0.45 / frequency)));
}
