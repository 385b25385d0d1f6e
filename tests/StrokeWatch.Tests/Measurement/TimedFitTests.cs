using StrokeWatch.Measurement.Stroke;
using Xunit;

namespace StrokeWatch.Tests.Measurement;

public sealed class TimedFitTests
{
    [Fact]
    public void At_even_places_the_timed_fit_is_the_even_one()
    {
        var random = new Random(3);
        var axis = Enumerable.Range(0, 801).Select(n => 3 + 20 * Math.Cos(0.197 * n) + 2 * Math.Sin(0.394 * n + 1) + 0.3 * Signal.Gauss(random)).ToArray();
        var even = new HarmonicFit(1, 6);
        var timed = new TimedHarmonicFit(1, 6);
        Assert.True(even.Fit([axis], 0, 801, 0.0313, 6, follow: true));
        Assert.True(timed.Fit([axis], 0, Enumerable.Range(0, 801).Select(n => n - 400.0).ToArray(), 0.0313, 6, follow: true));

        Assert.Equal(even.MeasuredFrequency, timed.MeasuredFrequency, 1e-9);
        Assert.Equal(1, timed.SquaredResiduals / even.SquaredResiduals, 1e-4);
        Assert.Equal(1, timed.CoefficientShare / even.CoefficientShare, 1e-2);
        for (var k = 0; k <= 6; k++)
        {
            Assert.Equal(even.Cosine(0)[k], timed.Cosine(0)[k], 1e-4);
            Assert.Equal(even.Sine(0)[k], timed.Sine(0)[k], 1e-4);
        }
    }

    [Fact]
    public void At_random_places_harmonics_and_frequency_are_recovered_exactly()
    {
        var random = new Random(4);
        var places = Enumerable.Range(0, 400).Select(n => n - 199.5 + random.NextDouble()).ToArray();
        var mean = places.Average();
        places = [.. places.Select(place => place - mean)];
        var fit = new TimedHarmonicFit(1, 3);
        Assert.True(fit.Fit([[.. places.Select(p => 1 + 5 * Math.Cos(0.3 * p) - 2 * Math.Sin(0.6 * p))]], 0, places, 0.3002 / (2 * Math.PI), 3, follow: true));

        Assert.Equal(0.3 / (2 * Math.PI), fit.MeasuredFrequency, 1e-7);
        Assert.Equal(5, fit.Cosine(0)[1], 1e-3);
        Assert.Equal(-2, fit.Sine(0)[2], 1e-3);
    }

    [Fact]
    public void What_was_decided_about_stamps_stays_while_neither_spacing_is_better()
    {
        var judge = new TimeStampJudge(believed: false);
        judge.Take(1, 1, 500);
        Assert.False(judge.Used);
        judge.Take(3, 1, 500);
        Assert.True(judge.Used);
        for (var i = 0; i < 40; i++)
        {
            judge.Take(1, 1.001, 500);
        }

        Assert.True(judge.Used);
        judge.Take(1, 8, 500);
        Assert.False(judge.Used);
    }
}
