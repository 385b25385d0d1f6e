using StrokeWatch.Measurement.Impacts;
using StrokeWatch.Measurement.Stroke;
using Xunit;

namespace StrokeWatch.Tests.Measurement.Impacts;

/// <summary>Cycles cut out of a window, against the signal's own formula.</summary>
public sealed class HighCyclesTests
{
    /// <summary>At 6.4 kHz and 50 Hz a cycle has 128 samples and 64 bins: 1.95 kHz would fold onto 1.25.</summary>
    [Fact]
    public void What_more_bins_would_have_to_hold_is_filtered_off_and_does_not_fold()
    {
        const double Frequency = 50.0 / 6400;
        double Energy(double order)
        {
            var window = Cut(3200, 6400, Frequency, 6, t => Math.Cos(2 * Math.PI * order * Frequency * t));
            return window.Norms.ToArray().Average(norm => norm * norm) / HighCycles.Bins / Math.Pow(1 - Math.Cos(2 * Math.PI * order * Frequency * 2), 2);
        }

        Assert.Equal(0.5, Energy(12.5), 0.01);
        Assert.Equal(0.5, Energy(20.5), 0.1);
        Assert.True(Energy(39) < 1e-4, $"{Energy(39)}");
        Assert.True(Energy(55.5) < 1e-4, $"{Energy(55.5)}");
    }

    [Fact]
    public void Another_sensor_listened_to_with_the_same_ear_leaves_nothing_behind()
    {
        var used = new HighCycles();
        foreach (var rate in new[] { 6400, 1000, 12800, 1600, 1000 })
        {
            var frequency = 50.05 / rate;
            double[] line = [.. Enumerable.Range(0, rate / 2).Select(n => Math.Cos(2 * Math.PI * 7.3 * frequency * n))];
            var fit = Fitted(line, frequency, 9);
            var fresh = new HighCycles();
            foreach (var window in new[] { used, fresh })
            {
                window.Take(line, fit, Path(fit), rate);
            }

            Assert.Equal(fresh.Count, used.Count);
            Assert.Equal(fresh.Norms.ToArray(), used.Norms.ToArray());
        }
    }

    private static HighCycles Cut(int count, double rate, double frequency, int orders, Func<double, double> signal)
    {
        double[] line = [.. Enumerable.Range(0, count).Select(n => signal(n - (0.5 * (count - 1))))];
        var fit = Fitted(line, frequency, orders);
        var window = new HighCycles();
        window.Take(line, fit, Path(fit), rate);
        return window;
    }

    private static HarmonicFit Fitted(double[] line, double frequency, int orders)
    {
        var fit = new HarmonicFit(1, orders);
        Assert.True(fit.Fit([line], 0, line.Length, frequency, orders, follow: false));
        return fit;
    }

    private static LineHarmonics Path(HarmonicFit fit) => new(fit.Cosine(0), fit.Sine(0), new double[] { 1 });
}
