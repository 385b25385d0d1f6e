using StrokeWatch.Assessment.Reports;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Reports.Html;
using Xunit;

namespace StrokeWatch.Tests.Reports.Html;

public sealed class StrokeTraceTests
{
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void A_thinned_trace_keeps_every_extreme_and_stays_small(int seed)
    {
        var random = new Random(seed);
        var windows = Windows(20_000, i => 1.7e-3 + 1e-4 * (random.NextDouble() - 0.5) + (i == 7_777 ? 5e-4 : 0) - (i == 12_345 ? 6e-4 : 0));
        var trace = StrokeTrace.Of(windows, 0, 10_000);
        Assert.True(trace.Thinned);
        var points = Assert.Single(trace.Pieces);
        Assert.InRange(points.Count, 400, 501);
        Assert.Equal(windows.Max(window => window.Reading.StrokeMetres!.Value), points.Max(point => point.Most));
        Assert.Equal(windows.Min(window => window.Reading.StrokeMetres!.Value), points.Min(point => point.Least));
        Assert.All(windows, window => Assert.Contains(points, point => point.Least <= window.Reading.StrokeMetres && window.Reading.StrokeMetres <= point.Most));
    }

    [Fact]
    public void A_thinned_trace_breaks_at_a_long_gap_and_a_whole_one_at_each_window_that_does_not_count()
    {
        var long1 = Windows(4_000, _ => 1.7e-3);
        var later = Windows(4_000, _ => 1.7e-3).Select(window => window with { Reading = window.Reading with { StartSeconds = window.Reading.StartSeconds + 3_000 } });
        Assert.Equal(2, StrokeTrace.Of([.. long1, .. later], 0, 5_000).Pieces.Count);

        var few = Windows(9, _ => 1.7e-3);
        few[3] = few[3] with { Verdict = Verdict.Unmeasurable };
        few[6] = few[6] with { Verdict = Verdict.Stopped };
        Assert.Equal([3, 2, 2], StrokeTrace.Of(few, 0, 4.5).Pieces.Select(piece => piece.Count));
        Assert.Empty(StrokeTrace.Of([few[3]], 0, 4.5).Pieces);
    }

    private static AssessedWindow[] Windows(int count, Func<int, double> stroke) =>
    [
        .. Enumerable.Range(0, count).Select(i => new AssessedWindow(
            new() { StartSeconds = 0.5 * i, LengthSeconds = 0.5, Quality = WindowQuality.Good, Motion = MotionState.Running, StrokeMetres = stroke(i), UncertaintyMetres = 4e-5 },
            Verdict.InBand)),
    ];
}
