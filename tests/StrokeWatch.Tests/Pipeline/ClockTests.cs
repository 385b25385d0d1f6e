using StrokeWatch.Measurement.Stroke;
using StrokeWatch.Pipeline;
using StrokeWatch.Samples.Sources;
using Xunit;

namespace StrokeWatch.Tests.Pipeline;

/// <summary>Which clock the drive's frequency rests on, and what a clock does that jumps or a mains that wanders.</summary>
public sealed class ClockTests
{
    private const double Step = 1 / 1600.0;
    private const int Samples = 32_000;

    [Theory]
    [InlineData(0.4, 0.01)]
    [InlineData(0.6, 0)]
    [InlineData(0.55, 0)]
    public void A_step_of_the_sensors_clock_is_told_and_never_averaged_across(double share, double longest)
    {
        // The stamps are the sensor's own count of samples; behind the step each of them takes 1 % less time.
        var at = (int)(share * Samples);
        var result = Stamped.Replay(Enumerable.Range(0, Samples).Select(n => (Step * (n < at ? n : at + (n - at) / 1.01), n * Step)), 21, timeFormat: "0.000000");

        var found = Assert.Single(result.Report.ClockSteps);
        Assert.InRange(found.AtSeconds, at * Step - 1, at * Step + 1);
        Assert.Equal(0.01, found.After - found.Before, 1e-4);
        Assert.Equal(longest, result.Report.ClockError!.Value, 1e-4);
        Assert.Contains(result.Findings, finding => finding.Id == "sensor-clock" && finding.Because[0].Contains("+1.00 %", StringComparison.Ordinal));
        var right = result.Report.Windows.Where(window => window.Reading is { StrokeMetres: not null, Quality: StrokeWatch.Measurement.Windows.WindowQuality.Good }).ToArray();
        Assert.True(right.Length >= 36);
        Assert.All(right, window => Assert.InRange(window.Reading.StrokeMetres!.Value / Stamped.StrokeMetres, 0.999, 1.001));
        Assert.Equal("mains", ClockSource.Name(result.Source, result.Report));
    }

    [Fact]
    public void Mains_that_wander_are_no_step_of_the_sensors_clock()
    {
        // 49.8 to 50.2 Hz and back in 20 s: a third harder than 0.1 Hz a second at a sine's steepest would be 12.6 s.
        var result = Stamped.Replay(
            Enumerable.Range(0, Samples).Select(n => (n * Step, n * Step)), 22,
            time => 50 * time + 0.2 * 20 / (2 * Math.PI) * (1 - Math.Cos(2 * Math.PI * time / 20)), timeFormat: "0.000000");

        Assert.Empty(result.Report.ClockSteps);
        Assert.DoesNotContain(result.Findings, finding => finding.Id == "sensor-clock");
    }

    [Fact]
    public void A_free_drives_rate_is_as_sure_as_span_and_scatter_of_the_stamps_make_it()
    {
        var random = new Random(23);
        var scattered = Stamped.Replay(Enumerable.Range(0, 3200).Select(n => (n * Step, Step * (n + 0.8 * (random.NextDouble() - 0.5)))), 23, free: true);
        var even = Stamped.Replay(Enumerable.Range(0, Samples).Select(n => (n * Step, n * Step)), 23, free: true, timeFormat: "0.000000");

        // Two ends of 0.231 steps each over 3,200 steps: √2 · 0.231/3200, counted twice.
        Assert.Equal(2 * Math.Sqrt(2) * 0.231 / 3200, Frequency(scattered), 1e-5);
        Assert.Equal(1e-4, Frequency(even), 1e-9);
        Assert.Equal("time-stamps", ClockSource.Name(even.Source, even.Report));
        Assert.Equal("sensor", ClockSource.Name(new SourceInfo { Format = "wav", Axes = even.Source.Axes, RateHz = 1600, RateFrom = RateOrigin.Header }, even.Report));
    }

    [Theory]
    [InlineData("option")]
    [InlineData("header")]
    public void Stamps_over_a_long_span_correct_a_free_drive_against_the_stated_rate(string stated)
    {
        // The sensor says 1600 Hz and takes 1632: without the host's stamps the frequency is 2 %, the stroke 4 % off.
        var random = new Random(24);
        var capture = new UnevenCapture
        {
            Free = true,
            Head = stated == "header" ? "# rate_hz: 1600\n" : "",
            Options = stated == "option" ? new() { RateHz = 1600 } : new(),
        };
        var result = capture.Replay(Enumerable.Range(0, Samples).Select(n => n / 1632.0), stamp: time => time + 1e-4 * random.NextDouble());

        Assert.Equal("time-stamps", ClockSource.Name(result.Source, result.Report));
        Assert.Equal(0.02, ClockSource.Error(result.Source, result.Report)!.Value, 1e-5);
        Assert.Equal(50, result.Report.FrequencyHz!.Value, 0.005);
        Assert.Equal(capture.Truth(), result.Report.Stroke.Stroke!.Value, 5e-4 * capture.Truth());
        Assert.Equal(1e-4, Frequency(result), 1e-9);
    }

    [Fact]
    public void A_stated_rate_far_from_the_stamps_is_the_users_word_against_them()
    {
        var capture = new UnevenCapture { Free = true, Options = new() { RateHz = 1600 } };
        var result = capture.Replay(Enumerable.Range(0, Samples).Select(n => n / 1600.0), stamp: time => 2 * time);

        Assert.Equal("sensor", ClockSource.Name(result.Source, result.Report));
        Assert.Equal(50, result.Report.FrequencyHz!.Value, 0.005);
    }

    private static double Frequency(ReplayResult result) => result.Contributions.Items.Single(item => item.Name == StrokeContributions.Frequency).Relative;
}
