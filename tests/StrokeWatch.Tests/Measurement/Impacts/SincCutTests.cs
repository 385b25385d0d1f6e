using StrokeWatch.Measurement.Impacts;
using Xunit;

namespace StrokeWatch.Tests.Measurement.Impacts;

/// <summary>Values read between samples, against the sine that was sampled.</summary>
public sealed class SincCutTests
{
    [Theory]
    [InlineData(0.01, 0.002)]
    [InlineData(0.1, 0.004)]
    [InlineData(0.25, 0.006)]
    [InlineData(0.35, 0.012)]
    [InlineData(0.40, 0.08)]
    [InlineData(0.42, 0.17)]
    public void A_sine_is_read_between_its_samples(double frequency, double most)
    {
        double Value(double t) => Math.Cos((2 * Math.PI * frequency * t) + 0.3);
        double[] samples = [.. Enumerable.Range(0, 200).Select(n => Value(n))];
        var values = new double[500];
        SincCut.Fill(samples, 10.1234, 0.3377, values);
        var worst = Enumerable.Range(0, values.Length).Max(i => Math.Abs(values[i] - Value(10.1234 + (0.3377 * i))));

        Assert.True(worst < most, $"{worst}");
    }
}
