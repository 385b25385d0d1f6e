using StrokeWatch.Measurement.Impacts;
using Xunit;

namespace StrokeWatch.Tests.Measurement.Impacts;

/// <summary>A line at a slower rate, against the sine that was sampled.</summary>
public sealed class SlowerLineTests
{
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
