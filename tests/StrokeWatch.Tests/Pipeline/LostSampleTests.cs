using StrokeWatch.Measurement.Windows;
using StrokeWatch.Pipeline;
using Xunit;
using Xunit.Abstractions;

namespace StrokeWatch.Tests.Pipeline;

/// <summary>Gaps so close together that no window of the usual length fits between them, and two loggers in one file; the truth is the test's own signal.</summary>
public sealed class LostSampleTests(ITestOutputHelper output)
{
    [Theory]
    [InlineData(50, 3200, 1)]
    [InlineData(60, 1600, 2)]
    [InlineData(100, 4000, 3)]
    [InlineData(120, 3200, 4)]
    public void Single_samples_lost_at_random_five_times_a_second_leave_the_stroke_and_no_window_spans_a_gap(double hertz, double rate, int seed)
    {
        var random = new Random(seed);
        var capture = new UnevenCapture { Hertz = hertz, Seed = seed };
        var lost = Enumerable.Range(0, 50).Select(_ => random.Next((int)(10 * rate))).ToHashSet();
        var result = capture.Replay(Enumerable.Range(0, (int)(10 * rate)).Where(i => !lost.Contains(i)).Select(i => i / rate));

        Within(capture, result);
        var counted = result.Report.Windows.Select(window => window.Reading).Where(window => window is { Quality: WindowQuality.Good, StrokeMetres: not null }).ToList();
        Assert.True(counted.Sum(window => window.LengthSeconds) > 4);
        Assert.All(counted, window => Assert.True(window.LengthSeconds * hertz > 3.9));
        Assert.All(counted, window => Assert.DoesNotContain(lost, i =>
            i / rate > window.StartSeconds + 1e-9 && i / rate < window.StartSeconds + window.LengthSeconds - 1.5 / rate));
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Samples_lost_every_seventh_of_a_second_from_the_first_on_leave_the_stroke_and_a_larger_uncertainty(bool free)
    {
        const double rate = 1600;
        var capture = new UnevenCapture { Free = free };
        var result = capture.Replay(Enumerable.Range(0, 16_000).Where(i => i % 240 < 236).Select(i => i / rate));

        Assert.True(result.Counters.Gaps > 60);
        Within(capture, result);
        Assert.True(result.Report.Count(WindowQuality.Good) > 50);

        // The same noise over 7 cycles instead of 25.
        var whole = capture.Replay(Enumerable.Range(0, 16_000).Select(i => i / rate));
        Assert.InRange(Noise(result) / Noise(whole) / Math.Sqrt(25 / 7.0), 0.85, 1.25);
    }

    [Theory]
    [InlineData(1000, 700)]
    [InlineData(1000, 999)]
    [InlineData(800, 400)]
    public void Two_loggers_merged_by_time_give_the_stroke(double one, double other)
    {
        var capture = new UnevenCapture();
        var taken = Enumerable.Range(0, (int)(8 * one)).Select(i => i / one)
            .Concat(Enumerable.Range(0, (int)(8 * other)).Select(i => (i + 0.3) / other)).Order();
        var result = capture.Replay(taken);

        Assert.Equal(0, result.Counters.Gaps);
        Assert.Equal(StampUse.Used, StampUses.Of(result.Source, result.Report));
        Within(capture, result);
    }

    [Fact]
    public void Bursts_with_a_pause_after_each_eighth_sample_give_the_stroke()
    {
        var capture = new UnevenCapture();
        var result = capture.Replay(Enumerable.Range(0, 8000).Select(i => i / 8 * 6e-3 + i % 8 * 0.5e-3));

        Assert.Equal((0L, 0L), (result.Counters.Gaps, result.Counters.Rejected.Values.Sum()));
        Assert.Equal(8 / 6e-3, result.RateHz, 2e-3);
        Within(capture, result);
    }

    private static double Noise(ReplayResult result)
    {
        var noise = result.Report.Windows.Select(window => window.Reading.NoiseMetres).OfType<double>().Order().ToArray();
        return noise[noise.Length / 2];
    }

    private void Within(UnevenCapture capture, ReplayResult result)
    {
        Assert.NotNull(result.Report.Stroke.Stroke);
        output.WriteLine(
            $"{result.RateHz:0.###} Hz, {result.Counters.Gaps} gaps, {StampUses.Of(result.Source, result.Report)}, off {100 * (result.Report.Stroke.Stroke / capture.Truth() - 1):0.0000} %,"
            + $" own {100 * UnevenCapture.OwnUncertainty(result) / capture.Truth():0.0000} %, {result.Report.Count(WindowQuality.Good)} of {result.Report.Windows.Count} good");

        // 1.5: a k = 2 interval misses one time in twenty.
        Assert.Equal(capture.Truth(), result.Report.Stroke.Stroke.Value, 1.5 * UnevenCapture.OwnUncertainty(result));
    }
}
