using StrokeWatch.Machine.Tuning;
using StrokeWatch.Outputs.Book;
using StrokeWatch.Session;
using Xunit;

namespace StrokeWatch.Tests.Session;

public sealed class SessionMachineTests
{
    [Fact]
    public void Cautions_come_before_anything_else_and_Enter_alone_does_not_pass_them()
    {
        var bench = new SessionBench();
        Assert.Equal("cautions", bench.Asked.Id);
        Assert.Contains(bench.Asked.Text, line => line.Contains("isolate, lock and tag", StringComparison.Ordinal));
        Assert.NotNull(bench.Answer("").Refused);
        Assert.Equal("cautions", bench.State.Step);
        Assert.Equal("empty", bench.Go("1").State.Step);
    }

    [Theory]
    [InlineData("lock-out")]
    [InlineData("restart")]
    [InlineData("cautions")]
    public void What_a_life_may_hang_on_is_not_confirmed_by_Enter(string step)
    {
        var bench = new SessionBench();
        if (step != "cautions")
        {
            bench.ToMeasure().Go("1", "1").Until(step);
        }

        Assert.NotNull(bench.Answer("").Refused);
        Assert.Equal(step, bench.State.Step);
    }

    [Fact]
    public void A_condition_that_is_not_met_says_what_to_do_and_asks_again()
    {
        var bench = new SessionBench().Go("1");
        foreach (var step in new[] { "empty", "voltage", "warm", "free", "clean" })
        {
            Assert.Equal(step, bench.State.Step);
            var turn = bench.Answer("2");
            Assert.Equal(step, bench.State.Step);
            Assert.NotNull(turn.Next);
            Assert.Contains("Then answer again", Assert.Single(turn.Said), StringComparison.Ordinal);
            bench.Go("yes");
        }

        Assert.Equal("rear", bench.State.Step);
    }

    [Theory]
    [InlineData("x")]
    [InlineData("3")]
    [InlineData("0")]
    [InlineData("11")]
    [InlineData("yes please")]
    [InlineData("\u001b[A")]
    public void A_wrong_answer_is_one_line_and_the_same_question_stands(string wrong)
    {
        var bench = new SessionBench().Go("1");
        var turn = bench.Answer(wrong);
        Assert.Null(turn.Next);
        Assert.Contains("is no answer here; press 1, 2, Enter for \"yes\"", turn.Refused, StringComparison.Ordinal);
        Assert.DoesNotContain(turn.Refused!, char.IsControl);
        Assert.Equal("empty", bench.State.Step);
    }

    [Fact]
    public void A_feeder_is_tuned_into_its_band_and_the_record_is_signed()
    {
        var bench = new SessionBench(null);
        Assert.Equal("who", bench.State.Step);
        bench.Go("Kim").ToMeasure();
        Assert.Equal([], bench.Trials);
        bench.Go("1");
        Assert.Equal("reading", bench.State.Step);
        Assert.Contains(bench.Asked.Text, line => line.Contains("1.500 mm (0.0591 in) ± 0.030 mm (0.0012 in)", StringComparison.Ordinal));
        Assert.Contains(bench.Asked.Text, line => line.Contains("LOW, 0.150 mm (0.0059 in) below the band", StringComparison.Ordinal));
        for (var change = 0; bench.Go("1").State.Step == "advice" && change < 3; change++)
        {
            Assert.StartsWith("put in ", bench.Asked.Choices[0].Words, StringComparison.Ordinal);
            bench.Go("1");
            Assert.Equal("lock-out", bench.State.Step);
            bench.Go("1");
            Assert.Contains(bench.Asked.Text, line => line.Contains("never touch it", StringComparison.Ordinal));
            bench.Until("reading");
            Assert.Equal("4x4.0", bench.Trials[^1].Front);
        }

        Assert.Equal("in-band", bench.State.Step);
        Assert.InRange(bench.Trials.Count, 2, 4);
        Assert.InRange(bench.Trials[^1].StrokeMetres!.Value, 1.65e-3, 1.78e-3);
        bench.Go("1", "1", "");
        Assert.True(bench.Done);
        Assert.True(bench.Asked.Over);
        Assert.Equal("Kim", bench.State.Who);
        Assert.Equal(bench.Trials.Count - 1, bench.Entries.Count(entry => entry.Kind == BookEntryKind.LeafSet));
        Assert.StartsWith("Tuned into its band: 1.", bench.Entries[^1].Text, StringComparison.Ordinal);
        Assert.Contains(bench.Asked.Text, line => line.StartsWith("final ", StringComparison.Ordinal) && line.EndsWith("in band", StringComparison.Ordinal));
        Assert.NotNull(bench.Answer("1").Refused);
    }

    [Fact]
    public void Over_stroke_says_stop_before_anything_else_and_there_is_no_way_round_it()
    {
        var bench = new SessionBench
        {
            Distort = reading => new(reading.Trial with { StrokeMetres = 1.95e-3, Verdict = "over-stroke" }, true),
        }.ToMeasure().Go("1");
        Assert.Equal("stop", bench.State.Step);
        Assert.True(bench.Asked.Urgent);
        Assert.StartsWith("STOP THE FEEDER NOW", bench.Asked.Text[0], StringComparison.Ordinal);
        Assert.DoesNotContain(bench.Asked.Text, line => line.Contains("mm", StringComparison.Ordinal));
        foreach (var wrong in new[] { "", "b", "c", "2" })
        {
            Assert.NotNull(bench.Answer(wrong).Refused);
        }

        bench.Go("1");
        Assert.Equal("reading", bench.State.Step);
        Assert.DoesNotContain("stop", bench.State.Trail);
        Assert.Contains(bench.Go("1").Asked.Text, line => line.Contains("over its limit", StringComparison.Ordinal));
        Assert.Equal("put in ", bench.Asked.Choices[0].Words[..7]);
    }

    [Fact]
    public void An_armature_that_strikes_in_the_band_is_not_tuned()
    {
        var bench = new SessionBench
        {
            Distort = reading => new(reading.Trial with { StrokeMetres = 1.70e-3, Verdict = "in-band", Strike = true }, true),
        }.ToMeasure().Go("1");
        Assert.Equal("ARMATURE STRIKE", bench.Asked.Title);
        bench.Go("1", "1");
        Assert.Equal("advice", bench.State.Step);
        Assert.Contains("air gap comes first", bench.Asked.Text[0], StringComparison.Ordinal);
        Assert.Equal("checks", bench.Asked.Choices[0].Id);
    }

    [Fact]
    public void A_measurement_without_a_stroke_is_kept_with_its_reason_and_made_again()
    {
        var bench = new SessionBench
        {
            Distort = reading => new(new() { Utc = default, Rear = "", Verdict = "unmeasurable", Reason = "the sensor clips" }, false),
        }.ToMeasure().Go("1");
        Assert.Equal(("reading", "the sensor clips"), (bench.State.Step, bench.Trials[0].Reason));
        Assert.Equal("measure again", Assert.Single(bench.Asked.Choices).Words);
        Assert.Contains(bench.Asked.Text, line => line.Contains("not measured: the sensor clips", StringComparison.Ordinal));
        Assert.Equal("measure", bench.Go("").State.Step);
    }

    [Fact]
    public void Without_a_coast_down_the_natural_frequency_is_asked_for_first()
    {
        var bench = new SessionBench { Distort = reading => new(reading.Trial with { NaturalHz = null, NaturalUncertaintyHz = null, DampingRatio = null }, false) }.ToMeasure().Go("1", "1");
        Assert.Contains(bench.Asked.Text, line => line.Contains("measure first", StringComparison.Ordinal));
        Assert.Equal(("measure", true), (bench.Asked.Choices[0].Id, bench.Asked.Choices[0].Enter));
    }

    [Fact]
    public void A_reading_that_is_left_out_does_not_count_and_is_not_erased()
    {
        var bench = new SessionBench { Distort = reading => new(reading.Trial with { StrokeMetres = 0.4e-3, Verdict = "low" }, false) }.ToMeasure().Go("1", "3");
        Assert.Equal(SessionWords.LeftOutNote, bench.Trials[0].Note);
        Assert.True(bench.Trials[0].LeftOut);
        bench.Distort = reading => reading;
        bench.Go("1", "1");
        Assert.Contains(bench.Asked.Text, line => line.Contains("the stroke is 1.500 mm", StringComparison.Ordinal));
        Assert.Equal(2, bench.Trials.Count);
    }

    [Fact]
    public void Another_stack_than_advised_may_go_in_and_what_is_really_in_is_asked()
    {
        var bench = new SessionBench().ToMeasure().Go("1", "1", "2");
        Assert.Contains("no stack", bench.Answer("five").Refused, StringComparison.Ordinal);
        Assert.Contains("the rear clamp takes 10", bench.Answer("11x4").Refused, StringComparison.Ordinal);
        bench.Go("4x4,0 + 2x3 mm", "1");
        Assert.Contains(bench.Asked.Text, line => line.Contains("Take out: 1 × 4 mm (0.157 in). Put in: 2 × 3 mm (0.118 in).", StringComparison.Ordinal));
        bench.Go("1", "1", "1", "4x4 1x3");
        Assert.Equal("4x4.0 1x3.0", StackText.Write(bench.State.Rear));
        Assert.Equal("4x4.0 1x3.0", bench.Entries[^1].Rear);
        Assert.Null(bench.State.Proposed);
    }

    [Fact]
    public void A_lock_that_is_on_is_taken_off_before_anything_is_measured()
    {
        var bench = new SessionBench().ToMeasure().Go("1", "1", "1", "1");
        Assert.Equal(("change", true), (bench.State.Step, bench.State.LockedOut));
        bench.Go("2", "3");
        Assert.Equal("restart", bench.State.Step);
        bench.Go("1", "1");
        Assert.Equal(("measure", false), (bench.State.Step, bench.State.LockedOut));
    }

    [Theory]
    [InlineData("bolts", "lock-out")]
    [InlineData("gap", "lock-out")]
    [InlineData("check:bolts", "checks")]
    [InlineData("checks", "checks")]
    [InlineData("advice", "advice")]
    public void Who_resumes_where_the_feeder_was_locked_out_is_asked_whether_the_lock_is_still_on(string step, string without)
    {
        var kept = new SessionBench().State with { Step = step, LockedOut = true };
        foreach (var (answer, then, locked) in new[] { ("1", step, true), ("2", without, false) })
        {
            var bench = new SessionBench();
            bench.Resume(kept);
            Assert.Equal("still-locked", bench.State.Step);
            Assert.NotNull(bench.Answer("").Refused);
            bench.Go(answer);
            Assert.Equal((then, locked), (bench.State.Step, bench.State.LockedOut));
        }

        Assert.Equal("restart", SessionMachine.Resume(kept with { Step = "restart" }).Step);
        Assert.Equal(step, SessionMachine.Resume(kept with { LockedOut = false }).Step);
    }

    [Fact]
    public void Once_the_lock_is_off_there_is_no_way_back_to_where_hands_are_in_the_machine()
    {
        var bench = new SessionBench().ToMeasure().Go("1", "1").Until("again");
        Assert.Equal(SessionWords.NoWayBack, bench.Answer("b").Refused);
        bench.Go("1", "1", "b", "b");
        Assert.Equal("again", bench.State.Step);
        Assert.Equal(SessionWords.NoWayBack, bench.Answer("b").Refused);
    }

    [Fact]
    public void One_goes_back_the_way_one_came()
    {
        var bench = new SessionBench().Go("1", "1", "1", "b");
        Assert.Equal("voltage", bench.State.Step);
        bench.Go("b", "b");
        Assert.Equal("cautions", bench.State.Step);
        Assert.Equal(SessionWords.NoWayBack, bench.Answer("b").Refused);
    }

    [Fact]
    public void Who_leaves_leaves_at_once_and_who_asks_is_told_why()
    {
        var bench = new SessionBench().ToMeasure();
        Assert.Contains("own, natural frequency", Assert.Single(bench.Answer("?").Said), StringComparison.Ordinal);
        Assert.True(bench.Answer("Q").Leaves);
        Assert.Equal("measure", bench.State.Step);
    }

    [Fact]
    public void Weight_taken_off_the_tray_is_told_and_bounded()
    {
        var bench = new SessionBench().ToMeasure().Go("1", "1", "4");
        Assert.Contains("from -31.5 to 70", bench.Answer("-40").Refused, StringComparison.Ordinal);
        Assert.NotNull(bench.Answer("much").Refused);
        bench.Go("-2,5 kg", "1", "1");
        Assert.Equal(-2.5, bench.Trials[^1].TrayChangeKilograms);
        Assert.Contains(bench.Asked.Text, line => line.Contains("tray 2.5 kg lighter", StringComparison.Ordinal));
    }

    [Fact]
    public void The_proposed_stack_is_that_of_the_advice()
    {
        var bench = new SessionBench().ToMeasure().Go("1", "1");
        var trial = new TuningTrial { Rear = SessionBench.Feeder.Springs!.Rear, StrokeMetres = bench.Trials[0].StrokeMetres, StrokeSpread = 0.003, NaturalHz = bench.Trials[0].NaturalHz, NaturalSpreadHz = 0.025, DampingRatio = 0.02 };
        var advice = TuningAdvisor.Advise(TuningFit.Run(SessionBench.Feeder, [trial]));
        bench.Go("1");
        Assert.Equal(StackText.Write(advice.Choice.Rear), StackText.Write(bench.State.Proposed!));
    }
}
