using StrokeWatch.Measurement.Impacts;
using StrokeWatch.Measurement.Stroke;
using Xunit;

namespace StrokeWatch.Tests.Measurement.Impacts;

/// <summary>Cycles cut out of a window, against the signal's own formula.</summary>
public sealed class HighCyclesTests
{
    /// <summary>Orders that run with the drive, and nothing else: whatever the samples' places, cycles must be alike, and be what the formula gives.</summary>
    [Theory]
    [InlineData(1000, 120)]
    [InlineData(1600, 50)]
    [InlineData(4000, 60)]
    [InlineData(5900, 100)]
    public void Cycles_that_are_alike_are_alike_wherever_the_samples_lie(int rate, int drive)
    {
        var random = new Random(rate);
        var orders = Math.Min(40, (int)(0.45 * rate / drive));
        var waves = Enumerable.Range(0, orders + 1).Select(k => (Size: 100 * Math.Pow(Math.Max(1, k), -1.5), Phase: 2 * Math.PI * random.NextDouble())).ToArray();
        double At(double cycles, int from, int to) => Enumerable.Range(from, Math.Max(0, to - from + 1)).Sum(k => waves[k].Size * Math.Cos((2 * Math.PI * k * cycles) + waves[k].Phase));
        var frequency = drive * 1.00137 / rate;
        var (window, line) = Cut(rate / 2, rate, frequency, orders, t => At(frequency * t, 1, orders), out var fit);
        var roughly = Spread(window);
        window.Refine(line, fit, Fitted.Path(fit));

        Assert.True(Spread(window) < 1e-12, $"spread {Spread(window):0.0E0}");
        Assert.True(roughly > 1e-6, $"spread {roughly:0.0E0} by the cubic");
        var lag = Math.Max(1, (int)Math.Round(rate / 3200.0));
        var kept = Math.Min(31, Math.Min(orders, (int)(0.5 / frequency)));
        for (var bin = 0; bin < HighCycles.Bins; bin++)
        {
            var cycles = (window.FirstPhase / (2 * Math.PI)) + (bin / (double)HighCycles.Bins);
            double High(double at) => At(at, window.LowOrders + 1, kept);
            Assert.Equal(High(cycles) - (0.5 * (High(cycles - (frequency * lag)) + High(cycles + (frequency * lag)))), window[0][bin], 1e-7);
        }
    }

    /// <summary>A tone at 6.5 times the drive, which no order holds, must keep its size where the cubic loses some.</summary>
    [Fact]
    public void What_differs_from_cycle_to_cycle_keeps_its_size()
    {
        const double Frequency = 50.0 / 1000;
        var (window, line) = Cut(500, 1000, Frequency, 9, t => Math.Cos(2 * Math.PI * 6.5 * Frequency * t), out var fit);
        double Energy() => window.Norms.ToArray().Average(norm => norm * norm) / HighCycles.Bins / Math.Pow(1 - Math.Cos(2 * Math.PI * 6.5 * Frequency), 2);
        var roughly = Energy();
        window.Refine(line, fit, Fitted.Path(fit));

        Assert.True(roughly < 0.45, $"{roughly}");
        Assert.Equal(0.5, Energy(), 0.02);
    }

    [Fact]
    public void Another_sensor_listened_to_with_the_same_ear_leaves_nothing_behind()
    {
        var used = new HighCycles();
        foreach (var rate in new[] { 5000, 1000, 3200, 1600, 1000 })
        {
            var frequency = 50.05 / rate;
            double[] line = [.. Enumerable.Range(0, rate / 2).Select(n => Math.Cos(2 * Math.PI * 7.3 * frequency * n))];
            var fit = Fitted.Fit(line, frequency, 9);
            var fresh = new HighCycles();
            foreach (var window in new[] { used, fresh })
            {
                window.Take(line, fit, Fitted.Path(fit), rate);
                window.Refine(line, fit, Fitted.Path(fit));
            }

            Assert.Equal(fresh.Count, used.Count);
            Assert.Equal(fresh.Norms.ToArray(), used.Norms.ToArray());
        }
    }

    private static (HighCycles Window, double[] Line) Cut(int count, double rate, double frequency, int orders, Func<double, double> signal, out HarmonicFit fit)
    {
        double[] line = Fitted.Line(count, signal);
        fit = Fitted.Fit(line, frequency, orders);
        var window = new HighCycles();
        window.Take(line, fit, Fitted.Path(fit), rate);
        return (window, line);
    }

    /// <summary>Gives by how much cycles differ from their mean, over the mean: sums of squares.</summary>
    private static double Spread(HighCycles window)
    {
        double between = 0, mean = 0;
        for (var bin = 0; bin < HighCycles.Bins; bin++)
        {
            var values = Enumerable.Range(0, window.Count).Select(m => window[m][bin]).ToList();
            var middle = values.Average();
            (between, mean) = (between + values.Average(value => Math.Pow(value - middle, 2)), mean + (middle * middle));
        }

        return between / mean;
    }
}
