using StrokeWatch.Measurement.Stroke;
using Xunit;

namespace StrokeWatch.Tests.Measurement;

/// <summary>Harmonics several samples at a time, against the sum written out with the library's own sine and cosine.</summary>
public sealed class HarmonicRunTests
{
    private const double Frequency = 0.01237;

    [Theory]
    [InlineData(1, false)]
    [InlineData(7, false)]
    [InlineData(8, true)]
    [InlineData(17, false)]
    [InlineData(2003, false)]
    [InlineData(2003, true)]
    public void Every_sample_gives_what_the_sum_written_out_gives(int count, bool uneven)
    {
        var random = new Random(31);
        double[] c = [0.3, 40, 3, 0, 0.2, 1], s = [0, -20, 1, 2, 0, -0.5];
        double[] places = uneven ? [.. Enumerable.Range(0, count).Select(n => n - 0.5 * (count - 1) + 0.3 * random.NextDouble())] : [];
        double[] line = [.. Enumerable.Range(0, count).Select(_ => Signal.Gauss(random))];
        double[] cos = new double[count], sin = new double[count], left = new double[count], slopes = new double[count];

        HarmonicRun.Phases(Frequency, places, cos, sin);
        HarmonicRun.TakeOff(line, c, s, cos, sin, left);
        HarmonicRun.Slopes(c, s, 7, cos, sin, slopes);

        for (var n = 0; n < count; n++)
        {
            var phase = 2 * Math.PI * Frequency * (uneven ? places[n] : n - 0.5 * (count - 1));
            var value = c[0] + Enumerable.Range(1, 5).Sum(k => c[k] * Math.Cos(k * phase) + s[k] * Math.Sin(k * phase));
            var slope = Enumerable.Range(1, 5).Sum(k => k * (s[k] * Math.Cos(k * phase) - c[k] * Math.Sin(k * phase)));
            Assert.Equal(line[n] - value, left[n], 1e-10);
            Assert.Equal(7 * slope, slopes[n], 1e-9);
        }
    }
}
