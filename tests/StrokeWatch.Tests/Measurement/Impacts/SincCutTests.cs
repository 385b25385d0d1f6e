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

    [Theory]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(8)]
    public void A_slower_line_keeps_what_it_can_hold_and_drops_the_rest(int every)
    {
        var slower = new SlowerLine();
        foreach (var (share, least, most) in new[] { (0.05, 0.99, 1.01), (0.3, 0.99, 1.01), (0.4, 0.97, 1.01), (0.6, 0.0, 0.05), (0.7, 0.0, 0.005), (0.49 * every, 0.0, 0.005) })
        {
            double[] line = [.. Enumerable.Range(0, 300 * every).Select(n => Math.Cos((2 * Math.PI * share / every * n) + 0.3))];
            var values = slower.Take(line, every)[SlowerLine.Reach..^SlowerLine.Reach].ToArray();
            var size = Math.Sqrt(2 * values.Average(value => value * value));

            Assert.Equal(300 - (2 * SlowerLine.Reach), values.Length);
            Assert.True(size >= least && size <= most, $"{share} of the slower rate: {size}");
        }
    }
}
