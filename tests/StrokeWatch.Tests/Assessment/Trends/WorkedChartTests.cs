using StrokeWatch.Assessment.Trends;
using Xunit;

namespace StrokeWatch.Tests.Assessment.Trends;

/// <summary>Charts worked by hand in textbooks.</summary>
public sealed class WorkedChartTests
{
    /// <summary>Montgomery's thirty values (target 10, standard deviation 1), as a numeric library's manual prints them.</summary>
    private static readonly double[] Montgomery =
    [
        9.45, 7.99, 9.29, 11.66, 12.16, 10.18, 8.04, 11.46, 9.2, 10.34, 9.03, 11.47, 10.51, 9.4, 10.08,
        9.37, 10.62, 10.31, 8.52, 10.84, 10.9, 9.33, 12.29, 11.5, 10.6, 11.08, 10.38, 11.62, 11.31, 10.52,
    ];

    /// <summary>Results from memory of Montgomery's table, recomputed.</summary>
    [Fact]
    public void Montgomerys_sums_signal_at_reading_29_and_left_zero_after_22()
    {
        double[] rises = [0, 0, 0, 1.16, 2.82, 2.5, 0.04, 1.0, 0, 0, 0, 0.97, 0.98, 0, 0, 0, 0.12, 0, 0, 0.34, 0.74, 0, 1.79, 2.79, 2.89, 3.47, 3.35, 4.47, 5.28, 5.3];
        double[] falls = [0.05, 1.56, 1.77, 0, 0, 0, 1.46, 0, 0.3, 0, 0.47, 0, 0, 0.1, 0, 0.13, 0, 0, 0.98, 0, 0, 0.17, 0, 0, 0, 0, 0, 0, 0, 0];
        var chart = new Cusum(0.5, 5);
        var signals = new List<int>();
        for (var i = 0; i < Montgomery.Length; i++)
        {
            chart.Add(Montgomery[i] - 10);
            Assert.Equal(rises[i], chart.Rise, 1e-9);
            Assert.Equal(falls[i], chart.Fall, 1e-9);
            if (chart.Signal != 0)
            {
                signals.Add((i + 1) * chart.Signal);
            }

            if (i + 1 == 29)
            {
                Assert.Equal(7, chart.RiseReadings);
            }
        }

        Assert.Equal([29, 30], signals);
    }

    /// <summary>Results from memory of Montgomery's table, recomputed.</summary>
    [Fact]
    public void Montgomerys_average_signals_at_readings_29_and_30()
    {
        var chart = new Ewma(0.1, 2.7, 10, 1);
        var values = new List<double>();
        var limits = new List<(double Upper, double Lower)>();
        var signals = new List<int>();
        foreach (var value in Montgomery)
        {
            chart.Add(value);
            values.Add(chart.Value);
            limits.Add((chart.Upper, chart.Lower));
            if (chart.Signal != 0)
            {
                signals.Add(values.Count);
            }
        }

        Assert.Equal([9.945, 9.7495], values[..2].Select(value => Math.Round(value, 6)));
        Assert.Equal([10.02316, 10.57314, 10.64682, 10.63414], new[] { 10, 28, 29, 30 }.Select(i => Math.Round(values[i - 1], 5)));
        Assert.Equal(10.27, limits[0].Upper, 1e-9);
        Assert.Equal(9.73, limits[0].Lower, 1e-9);
        Assert.Equal(10.363248, limits[1].Upper, 1e-6);
        Assert.Equal(0.61942248, 2.7 * Ewma.FinalDeviation(0.1), 1e-8);
        Assert.Equal([29, 30], signals);
    }

    /// <summary>NIST/SEMATECH e-Handbook of Statistical Methods 6.3.2.4; its limits by the text, its data from memory.</summary>
    [Fact]
    public void The_handbooks_average_stays_within_its_limits()
    {
        double[] data = [52.0, 47.0, 53.0, 49.3, 50.1, 47.0, 51.0, 50.1, 51.2, 50.5, 49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1];
        double[] expected = [50.6, 49.52, 50.564, 50.1848, 50.1594, 49.2116, 49.7481, 49.8537, 50.2576, 50.3303, 50.1112, 49.3578, 49.5205, 50.0543, 49.378, 49.9246, 50.7272, 51.2291, 51.9403, 51.9882];
        var chart = new Ewma(0.3, 3, 50, 2.0539);
        for (var i = 0; i < data.Length; i++)
        {
            chart.Add(data[i]);
            Assert.Equal(expected[i], chart.Value, 5.1e-5);
            var final = 3 * 2.0539 * Ewma.FinalDeviation(0.3);
            Assert.InRange(chart.Value, 50 - final, 50 + final);
        }

        Assert.Equal(0.420084025, Ewma.FinalDeviation(0.3), 1e-9);
        Assert.Equal(52.58843174, 50 + 3 * 2.0539 * Ewma.FinalDeviation(0.3), 1e-8);
        Assert.Equal(47.41156826, 50 - 3 * 2.0539 * Ewma.FinalDeviation(0.3), 1e-8);
    }

    /// <summary>NIST/SEMATECH e-Handbook of Statistical Methods 6.3.2.3; data from memory.</summary>
    [Fact]
    public void The_handbooks_sum_signals_at_reading_14()
    {
        double[] data =
        [
            324.925, 324.675, 324.725, 324.35, 325.35, 325.225, 324.125, 324.525, 325.225, 324.6,
            324.625, 325.15, 328.325, 327.25, 327.825, 328.5, 326.675, 327.775, 326.875, 328.35,
        ];
        double[] expected = [3.0075, 4.94, 7.4475, 10.63, 11.9875, 14.445, 16.0025, 19.035];
        var chart = new Cusum(0.3175, 4.1959);
        int? first = null;
        for (var i = 0; i < data.Length; i++)
        {
            chart.Add(data[i] - 325);
            first ??= chart.Signal > 0 ? i + 1 : null;
            if (i >= 12)
            {
                Assert.Equal(expected[i - 12], chart.Rise, 1e-9);
            }
        }

        Assert.Equal(14, first);
    }

    [Fact]
    public void A_sum_held_at_its_most_comes_back_in_good_time()
    {
        var chart = new Cusum(0.5, 4, most: 5);
        for (var i = 0; i < 1000; i++)
        {
            chart.Add(3);
        }

        Assert.Equal(5, chart.Rise);
        for (var i = 0; i < 10; i++)
        {
            chart.Add(0);
        }

        Assert.Equal(0, chart.Rise);
        Assert.Throws<ArgumentOutOfRangeException>(() => chart.Add(double.NaN));
    }
}
