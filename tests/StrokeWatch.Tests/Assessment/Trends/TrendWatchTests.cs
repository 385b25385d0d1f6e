using StrokeWatch.Assessment.Trends;
using StrokeWatch.Benchmarks;
using Xunit;

namespace StrokeWatch.Tests.Assessment.Trends;

public sealed class TrendWatchTests
{
    private static readonly DateTimeOffset Begin = new(2026, 3, 1, 6, 0, 0, TimeSpan.Zero);

    /// <summary>A natural frequency learned over 30 readings with a spread of 0.1 Hz.</summary>
    private static readonly TrendBaseline Natural = new(66, 0.1, 30, 0);

    private static readonly TrendDesign Design = TrendDesign.For(new(), 30);

    /// <summary>Seeded; the full study is the benchmark command <c>trend-runs</c>. Three standard errors of so many runs are 7 %.</summary>
    [Theory]
    [InlineData(null, 2000)]
    [InlineData(30, 1200)]
    public void Healthy_machines_run_as_long_as_designed(int? readings, int runs)
    {
        var design = TrendDesign.For(new() { RunLength = 100 }, readings);
        Assert.InRange(TrendRuns.FalseRunLength(design, TrendRuns.Normal, runs, 41), 90, 110);
    }

    [Fact]
    public void A_baseline_of_few_readings_asks_for_more_before_it_signals()
    {
        var known = TrendDesign.For(new(), null);
        var few = TrendDesign.For(new(), 10);
        Assert.True(few.Decision > Design.Decision && Design.Decision > known.Decision);
        Assert.True(few.Allowance > Design.Allowance && Design.Allowance > known.Allowance);

        // Without the widening, a baseline of ten readings would signal far too often.
        var careless = few with { Allowance = known.Allowance, Decision = known.Decision };
        Assert.True(TrendRuns.FalseRunLength(careless, TrendRuns.Normal, 200, 43) < 0.5 * known.RunLength);
    }

    [Fact]
    public void A_falling_natural_frequency_is_dated_sized_and_told_by_the_day()
    {
        var normal = new NormalReadings(7);
        var watch = new TrendWatch(Design, Natural);
        var signalled = Run(watch, day => 66 + 0.1 * normal.Next() - 0.03 * Math.Max(0, day - 60), 0, 90);
        Assert.InRange(signalled!.Value, 61, 80);
        var report = watch.Report();
        Assert.Equal((TrendState.DriftingDown, Begin.AddDays(signalled.Value)), (report.State, report.Signalled));
        Assert.InRange(report.AboveZeroSince!.Value, Begin.AddDays(50), Begin.AddDays(signalled.Value));
        var change = report.Change!;
        Assert.Equal(ChangeShape.Ramp, change.Shape);
        Assert.InRange(Begin.AddDays(60), change.Earliest, change.Latest);
        Assert.Equal(-0.03, change.RatePerDay!.Value, 3 * change.RateUncertaintyPerDay!.Value);
        Assert.Equal(-0.87, change.Size, 3 * change.SizeUncertainty);
        Assert.True(report.Level < report.LevelLower);
    }

    [Fact]
    public void Single_wild_readings_signal_nothing()
    {
        var watch = new TrendWatch(Design, Natural);
        Assert.Null(Run(watch, day => day % 10 == 5 ? 90 : 66 + (day % 2 == 0 ? 0.05 : -0.05), 0, 500));
    }

    [Fact]
    public void A_heavy_load_for_an_hour_signals_nothing_but_a_load_that_stays_does()
    {
        var watch = new TrendWatch(Design, Natural);
        Assert.Null(Run(watch, day => day is 20 or 50 ? 65.8 : 66, 0, 60));
        Assert.InRange(Run(watch, _ => 65.8, 60, 90)!.Value, 63, 72);
    }

    [Fact]
    public void Gaps_in_time_do_no_harm()
    {
        var watch = new TrendWatch(Design, Natural);
        Run(watch, _ => 66, 0, 20);
        Assert.Equal(20, watch.Report().Readings);
        Assert.Null(Run(watch, _ => 66.02, 400, 415));
        Assert.InRange(Run(watch, _ => 66.25, 415, 445)!.Value, 417, 427);
        var change = watch.Report().Change!;
        Assert.Equal((ChangeShape.Step, Begin.AddDays(415)), (change.Shape, change.At));
        Assert.InRange(Begin.AddDays(415), change.Earliest, change.Latest);
    }

    [Fact]
    public void A_mended_machine_is_steady_again_and_its_next_change_a_story_of_its_own()
    {
        var watch = new TrendWatch(Design, Natural);
        Run(watch, day => day < 30 ? 66 : 65.5, 0, 60);
        Assert.Equal(TrendState.DriftingDown, watch.State);
        Run(watch, _ => 66, 60, 90);
        Assert.Equal(TrendState.Steady, watch.State);
        Assert.Null(watch.Report().Change);
        Run(watch, day => day < 100 ? 66 : 66.4, 90, 130);
        Assert.Equal(TrendState.DriftingUp, watch.State);
        Assert.Equal(Begin.AddDays(100), watch.Report().Change!.At);
        Assert.Equal(0.4, watch.Report().Change!.Size, 0.02);
    }

    [Fact]
    public void A_drift_older_than_what_is_kept_holds_its_date()
    {
        var watch = new TrendWatch(Design, Natural);
        Run(watch, day => day < 100 ? 66 : 65.5, 0, 2000);
        Assert.Equal(Begin.AddDays(100), watch.Report().Change!.At);
        Assert.Equal(-0.5, watch.Report().Change!.Size, 0.03);
    }

    [Fact]
    public void A_slow_drift_older_than_what_is_kept_holds_its_date_and_its_shape()
    {
        var watch = new TrendWatch(Design, Natural);
        Run(watch, day => 66 - 0.01 * Math.Max(0, day - 100), 0, 400);
        var told = watch.Report().Change!;
        Assert.Equal((ChangeShape.Ramp, Begin.AddDays(100)), (told.Shape, told.At));
        Run(watch, day => 66 - 0.01 * Math.Max(0, day - 100), 400, 1600);
        var change = watch.Report().Change!;
        Assert.Equal(ChangeShape.Ramp, change.Shape);
        Assert.InRange(Begin.AddDays(100), change.Earliest, change.Latest);
        Assert.InRange(change.At, Begin.AddDays(80), Begin.AddDays(120));
        Assert.Equal(-15, change.Size, 0.2);
    }

    /// <summary>Seeded; the full study is the benchmark command <c>trend-runs</c>. Probabilities flat in the rate held 79 dates of 100.</summary>
    [Theory]
    [InlineData(0.01)]
    [InlineData(0.05)]
    public void The_dates_stated_of_a_slow_drift_hold_as_often_as_they_say(double slope) =>
        Assert.InRange(TrendRuns.Found(TrendDesign.For(new(), null), 0, slope, 400, 29).Dated, 92, 99.9);

    /// <summary>Student's t of ν = 14 has the standard deviation √(14/12): a spread learned from fifteen readings may well be too small.</summary>
    [Fact]
    public void A_size_beside_a_baseline_of_few_readings_is_stated_wider_by_what_the_spread_may_be_off()
    {
        var watch = new TrendWatch(TrendDesign.For(new(), 15), new(66, 0.1, 15, 0));
        Run(watch, day => day < 30 ? 66 : 67, 0, 50);
        var bare = Math.Sqrt((0.01 / 20) + (1 / ((15 / 0.01) + (30 / 0.01))));
        Assert.Equal(Math.Sqrt(14.0 / 12) * bare, watch.Report().Change!.SizeUncertainty, 1e-6);
        Assert.Equal(1, new TrendBaseline(66, 0.1, null, 0).SpreadDoubt);
        Assert.Equal(1, new TrendBaseline(66, 0, 15, 0.1).SpreadDoubt);
    }

    [Fact]
    public void A_reading_of_great_uncertainty_weighs_little()
    {
        var watch = new TrendWatch(Design, Natural);
        for (var day = 0; day < 60; day++)
        {
            Assert.True(watch.TryAdd(Begin.AddDays(day), 66.2, 2));
        }

        Assert.Equal(TrendState.Steady, watch.State);
    }

    [Fact]
    public void What_cannot_be_judged_is_refused()
    {
        var watch = new TrendWatch(Design, Natural);
        Assert.True(watch.TryAdd(Begin, 66, 0));
        Assert.False(watch.TryAdd(Begin, 66, 0));
        Assert.False(watch.TryAdd(Begin.AddDays(1), double.NaN, 0));
        Assert.False(watch.TryAdd(Begin.AddDays(1), 66, double.NaN));
        Assert.False(new TrendWatch(Design, Natural with { Spread = 0 }).TryAdd(Begin, 66, 0));
        Assert.Throws<ArgumentException>(() => new TrendWatch(Design, Natural with { Readings = 12 }));
        Assert.Throws<ArgumentOutOfRangeException>(() => TrendDesign.For(new(), 2));
    }

    private static int? Run(TrendWatch watch, Func<int, double> value, int from, int to)
    {
        int? signalled = null;
        for (var day = from; day < to; day++)
        {
            Assert.True(watch.TryAdd(Begin.AddDays(day), value(day), 0));
            signalled ??= watch.State != TrendState.Steady ? day : null;
        }

        return signalled;
    }
}
