using StrokeWatch.Assessment.Reports;
using StrokeWatch.Assessment.Watching;
using Xunit;

namespace StrokeWatch.Tests.Assessment.Watching;

public sealed class MachineWatchTests
{
    [Fact]
    public void What_stood_in_an_alarm_is_not_learned_as_healthy()
    {
        var machine = new Synthetic(1);
        var watch = new MachineWatch(null, Synthetic.Learning);
        for (var i = 0; i < 100; i++)
        {
            watch.Take(machine.Next(stroke: 0.2, alarm: true));
        }

        Assert.Null(watch.Baseline);
        Assert.Contains("100 left out because of alarms", watch.Progress(), StringComparison.Ordinal);
        WatchOutcome last = new();
        for (var i = 0; i < 30; i++)
        {
            last = watch.Take(machine.Next());
        }

        Assert.Same(watch.Baseline, last.Learned);
        Assert.InRange(watch.Baseline!.Find("stroke_mm")!.Mean, 1.69, 1.71);
        Assert.Contains("from 30 stretches", watch.Baseline.Note, StringComparison.Ordinal);
    }

    [Fact]
    public void A_change_is_raised_with_date_and_size_and_cleared_when_the_machine_comes_back()
    {
        var machine = new Synthetic(2);
        var watch = machine.Learned();
        Assert.NotNull(watch.Baseline);
        var (raised, at) = Until(watch, () => machine.Next(natural: -0.012), outcome => outcome.AlarmRaised);
        Assert.InRange(at, 1, 8);
        var because = Assert.Single(raised.Findings[0].Finding.Because, sentence => sentence.StartsWith("Natural frequency", StringComparison.Ordinal));
        Assert.Contains("from 52.5", because, StringComparison.Ordinal);
        Assert.Contains("to 51.8", because, StringComparison.Ordinal);
        Assert.Contains("2026-03-0", because, StringComparison.Ordinal);

        var (cleared, _) = Until(watch, () => machine.Next(), outcome => outcome.AlarmWords is not null);
        Assert.False(cleared.AlarmRaised);
        Assert.Equal([false], cleared.Findings.Select(finding => finding.Raised));
        Assert.Null(watch.Standing);
    }

    [Fact]
    public void Stretches_that_tell_nothing_clear_nothing()
    {
        var machine = new Synthetic(3);
        var watch = machine.Learned();
        Until(watch, () => machine.Next(natural: -0.012), outcome => outcome.AlarmRaised);
        for (var i = 0; i < 500; i++)
        {
            var nothing = watch.Take(machine.Of(new CaptureFeatures { Reason = "the sensor clips" }));
            Assert.Equal((null, 0), (nothing.AlarmWords, nothing.Findings.Count));
        }

        Assert.NotNull(watch.Standing);
    }

    [Fact]
    public void Running_without_a_stop_tells_nothing_of_the_natural_frequency_and_clears_nothing_of_it()
    {
        var machine = new Synthetic(4);
        var watch = machine.Learned();
        Until(watch, () => machine.Next(natural: -0.012), outcome => outcome.AlarmRaised);
        for (var i = 0; i < 100; i++)
        {
            watch.Take(machine.Next(transient: false));
        }

        Assert.NotNull(watch.Standing);
    }

    [Fact]
    public void A_clock_that_was_set_back_is_counted_and_no_reading_is_taken_twice()
    {
        var machine = new Synthetic(5);
        var watch = machine.Learned();
        var early = new Synthetic(6).Next(natural: -0.5);
        for (var i = 0; i < 50; i++)
        {
            Assert.Null(watch.Take(early).AlarmWords);
        }

        Assert.Equal(50, watch.NotLater);
    }

    [Fact]
    public void The_same_stretches_read_back_lead_to_the_same_state()
    {
        var machine = new Synthetic(7);
        var watch = machine.Learned();
        var stretches = Enumerable.Range(0, 40).Select(i => machine.Next(stroke: 0.001 * i, natural: -0.0006 * i)).ToList();
        stretches.ForEach(stretch => watch.Take(stretch));
        var again = new MachineWatch(watch.Baseline, null);
        stretches.ForEach(stretch => again.Take(stretch));

        Assert.NotNull(watch.Standing);
        Assert.Equal((watch.Standing.Id, watch.Standing.Confidence), (again.Standing?.Id, again.Standing?.Confidence));
        Assert.Equal(watch.Standing.Because, again.Standing!.Because);
    }

    /// <summary>Three months of standstill, in which somebody changed a leaf: the date is no nearer known than that.</summary>
    [Fact]
    public void A_change_while_the_machine_stood_still_is_dated_between_the_last_running_before_and_the_first_after()
    {
        var machine = new Synthetic(8);
        var watch = machine.Learned();
        for (var i = 0; i < 60; i++)
        {
            watch.Take(machine.Next());
        }

        var stopped = watch.Baseline!.Features[0].To!.Value.AddHours(60);
        machine.Skip(TimeSpan.FromDays(92));
        var (raised, _) = Until(watch, () => machine.Next(natural: -0.012), outcome => outcome.AlarmRaised);
        for (var i = 0; i < 20; i++)
        {
            watch.Take(machine.Next(natural: -0.012));
        }

        // The dates' words end where the first running after the stop began.
        var because = watch.Standing!.Because.Single(sentence => sentence.StartsWith("Natural frequency", StringComparison.Ordinal));
        var between = System.Text.RegularExpressions.Regex.Match(because, @"between (\S+) and (\S+)\.$");
        Assert.True(between.Success, because);
        Assert.InRange(DateTimeOffset.Parse(between.Groups[1].Value, System.Globalization.CultureInfo.InvariantCulture), Synthetic.Begin, stopped.AddHours(1));
        Assert.InRange(DateTimeOffset.Parse(between.Groups[2].Value, System.Globalization.CultureInfo.InvariantCulture), stopped.AddDays(91), stopped.AddDays(92.2));
        Assert.True(raised.AlarmRaised);
    }

    /// <summary>A start reads back a part of the stretches only: what is older than they are is told as such, not with the date of the oldest that was read.</summary>
    [Fact]
    public void A_program_started_long_after_a_change_says_that_it_is_older_than_what_it_read_back()
    {
        var machine = new Synthetic(9);
        var watch = machine.Learned();
        var stretches = Enumerable.Range(0, 700).Select(i => machine.Next(natural: i < 60 ? 0 : -0.012)).ToList();
        stretches.ForEach(stretch => watch.Take(stretch));
        string Sentence(MachineWatch of) => of.Standing!.Because.Single(sentence => sentence.StartsWith("Natural frequency", StringComparison.Ordinal));
        var known = Sentence(watch);
        Assert.Contains(StrokeWatch.Samples.Captures.RecordedDate.Text(stretches[60].To)[..10], known, StringComparison.Ordinal);
        Assert.DoesNotContain("or before", known, StringComparison.Ordinal);

        foreach (var from in (int[])[300, 600])
        {
            var again = new MachineWatch(watch.Baseline, null);
            stretches.Skip(from).ToList().ForEach(stretch => again.Take(stretch));
            Assert.Equal(watch.Standing!.Id, again.Standing?.Id);
            Assert.Contains("or before", Sentence(again), StringComparison.Ordinal);
            Assert.Contains("to 51.8", Sentence(again), StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Healthy_machines_are_called_about_as_seldom_as_the_charts_are_designed()
    {
        // Twenty machines of 500 hours at a run length of 5000: two false calls on average; a Poisson law has more than seven in one of a thousand (from memory).
        var calls = 0;
        for (var seed = 100UL; seed < 120; seed++)
        {
            var machine = new Synthetic(seed);
            var watch = machine.Learned();
            for (var i = 0; i < 500; i++)
            {
                calls += watch.Take(machine.Next()).AlarmRaised ? 1 : 0;
            }
        }

        Assert.InRange(calls, 0, 7);
    }

    [Fact]
    public void A_told_baseline_of_the_stroke_alone_is_watched_as_far_as_it_goes()
    {
        var machine = new Synthetic(8);
        var watch = new MachineWatch(
            new() { Version = 1, Origin = StrokeWatch.Assessment.Baselines.BaselineOrigin.Told, Made = Synthetic.Begin, Features = [new() { Name = "stroke_mm", Mean = 1.7, Spread = 0.01 }] },
            null);
        Assert.Contains("1 symptoms are followed", watch.Progress(), StringComparison.Ordinal);
        var (raised, _) = Until(watch, () => machine.Next(stroke: 0.08), outcome => outcome.AlarmRaised);
        Assert.Contains("mm (", raised.AlarmWords, StringComparison.Ordinal);
        Assert.Contains(" in)", raised.AlarmWords, StringComparison.Ordinal);
    }

    private static (WatchOutcome Outcome, int Stretches) Until(MachineWatch watch, Func<StrokeWatch.Assessment.Stretches.Stretch> next, Func<WatchOutcome, bool> asked)
    {
        for (var i = 1; i <= 300; i++)
        {
            if (watch.Take(next()) is var outcome && asked(outcome))
            {
                return (outcome, i);
            }
        }

        throw new Xunit.Sdk.XunitException("It never came.");
    }
}
