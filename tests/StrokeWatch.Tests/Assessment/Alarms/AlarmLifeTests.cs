using StrokeWatch.Assessment.Alarms;
using Xunit;

namespace StrokeWatch.Tests.Assessment.Alarms;

/// <summary>The states and transitions of IEC 62682 (ANSI/ISA-18.2): A normal, B unacknowledged, C acknowledged, D returned unacknowledged, E and F latched, G shelved, H suppressed, I out of service; from memory of the standard.</summary>
public sealed class AlarmLifeTests
{
    private static readonly DateTimeOffset Noon = new(2026, 3, 29, 12, 0, 0, TimeSpan.Zero);
    private static readonly AlarmTable Table = AlarmTable.Of(new());

    [Theory]
    [InlineData(AlarmKind.HighStroke, "+", "B")]
    [InlineData(AlarmKind.HighStroke, "+a", "BC")]
    [InlineData(AlarmKind.HighStroke, "+a-", "BCA")]
    [InlineData(AlarmKind.HighStroke, "+-", "BD")]
    [InlineData(AlarmKind.HighStroke, "+-a", "BDA")]
    [InlineData(AlarmKind.HighStroke, "+-+a-", "BDBCA")]
    [InlineData(AlarmKind.OverStroke, "+-", "BE")]
    [InlineData(AlarmKind.OverStroke, "+-ar", "BEFA")]
    [InlineData(AlarmKind.OverStroke, "+a-r", "BCFA")]
    [InlineData(AlarmKind.Strike, "+-+a-r", "BEBCFA")]
    [InlineData(AlarmKind.Strike, "+-a+a-r", "BEFBCFA")]
    [InlineData(AlarmKind.HighStroke, "s+u", "GGB")]
    [InlineData(AlarmKind.HighStroke, "s+-u", "GGGA")]
    [InlineData(AlarmKind.HighStroke, "+s-u", "BGGD")]
    [InlineData(AlarmKind.HighStroke, "+as-u", "BCGGA")]
    [InlineData(AlarmKind.HighStroke, "+asu", "BCGC")]
    [InlineData(AlarmKind.OverStroke, "s+-u", "GGGE")]
    [InlineData(AlarmKind.HighStroke, "h+h-x", "HHHA")]
    [InlineData(AlarmKind.HighStroke, "+hx", "BHB")]
    [InlineData(AlarmKind.HighStroke, "o+i", "IIB")]
    [InlineData(AlarmKind.HighStroke, "so+i", "GIIG")]
    [InlineData(AlarmKind.HighStroke, "hsu", "HGH")]
    [InlineData(AlarmKind.Strike, "o+-i", "IIIE")]
    [InlineData(AlarmKind.HighStroke, "-ar", "")]
    [InlineData(AlarmKind.HighStroke, "++", "B")]
    public void An_alarm_goes_through_the_standards_states(AlarmKind kind, string acts, string states)
    {
        var life = new AlarmLife(new(kind), Table[kind]);
        var steps = acts.Select((act, i) => life.Take(Input(act, Noon.AddSeconds(i))).Step).OfType<AlarmStep>().ToList();
        Assert.Equal(states, string.Concat(steps.Select(step => Letter(step.To))));
        Assert.Equal(steps.Select(step => step.From).Skip(1), steps.Select(step => step.To).SkipLast(1));
    }

    [Theory]
    [InlineData("", 'a', "high-stroke has nothing to acknowledge")]
    [InlineData("+a", 'a', "high-stroke has nothing to acknowledge")]
    [InlineData("s+", 'a', "high-stroke is shelved: there is nothing to acknowledge")]
    [InlineData("h+", 'a', "high-stroke is suppressed by design: there is nothing to acknowledge")]
    [InlineData("o", 'a', "high-stroke is out of service: there is nothing to acknowledge")]
    [InlineData("o", 's', "high-stroke is out of service: there is nothing to shelve")]
    [InlineData("o", 'o', "high-stroke is out of service already")]
    [InlineData("", 'i', "high-stroke is in service already")]
    [InlineData("", 'u', "high-stroke is not shelved")]
    [InlineData("+", 'r', "high-stroke still stands: what causes it must go first")]
    [InlineData("", 'r', "high-stroke has not latched: there is nothing to reset")]
    public void A_request_that_makes_no_sense_is_refused_in_a_sentence_and_changes_nothing(string before, char act, string refusal)
    {
        var life = new AlarmLife(new(AlarmKind.HighStroke), Table[AlarmKind.HighStroke]);
        foreach (var one in before)
        {
            life.Take(Input(one, Noon));
        }

        var (state, beneath) = (life.State, life.Beneath);
        var answer = life.Take(Input(act, Noon));
        Assert.Equal((null, refusal), (answer.Step, answer.Refusal));
        Assert.Equal((state, beneath), (life.State, life.Beneath));
    }

    [Fact]
    public void A_latched_alarm_is_not_reset_before_somebody_has_acknowledged_it()
    {
        var life = new AlarmLife(new(AlarmKind.OverStroke), Table[AlarmKind.OverStroke]);
        life.Take(Input('+', Noon));
        life.Take(Input('-', Noon));
        Assert.Equal("over-stroke is not acknowledged yet: acknowledge it first", life.Take(Input('r', Noon)).Refusal);
    }

    [Fact]
    public void A_shelf_has_an_end_that_comes_by_itself_and_is_no_longer_than_the_table_allows()
    {
        var life = new AlarmLife(new(AlarmKind.OverStroke), Table[AlarmKind.OverStroke]);
        AlarmInput Shelf(TimeSpan? time) => new(AlarmAct.Shelve, Noon, "shift", "known", Noon + time);
        Assert.Contains("needs an end", life.Take(Shelf(null)).Refusal, StringComparison.Ordinal);
        Assert.Contains("needs an end", life.Take(Shelf(TimeSpan.Zero)).Refusal, StringComparison.Ordinal);
        Assert.Equal("over-stroke may be shelved for 1 h at most", life.Take(Shelf(TimeSpan.FromMinutes(61))).Refusal);
        var step = life.Take(Shelf(TimeSpan.FromMinutes(30))).Step!;
        Assert.Equal((AlarmState.Shelved, Noon.AddMinutes(30), "shift", "known"), (step.To, step.Until, step.By, step.Words));
        Assert.Null(life.Take(new(AlarmAct.ShelfEnds, Noon.AddMinutes(29), "time")).Step);
        life.Take(Input('+', Noon.AddMinutes(10)));
        step = life.Take(new(AlarmAct.ShelfEnds, Noon.AddMinutes(30), "time")).Step!;
        Assert.Equal((AlarmState.Shelved, AlarmState.Unacknowledged, true), (step.From, step.To, step.Announces));
        Assert.Null(step.Until);
    }

    [Fact]
    public void A_shelf_that_ends_further_ahead_than_any_may_is_over_for_the_clock_was_set_back()
    {
        var life = new AlarmLife(new(AlarmKind.OverStroke), Table[AlarmKind.OverStroke]);
        life.Take(new(AlarmAct.Shelve, Noon, "shift", "known", Noon.AddMinutes(30)));
        Assert.Null(life.Take(new(AlarmAct.ShelfEnds, Noon.AddMinutes(-30), "time")).Step);
        Assert.Equal(AlarmState.Normal, life.Take(new(AlarmAct.ShelfEnds, Noon.AddMinutes(-31), "time")).Step!.To);
    }

    [Fact]
    public void After_a_restart_what_people_decided_still_holds_and_a_danger_that_stood_is_not_forgotten()
    {
        foreach (var (kind, acts, state, beneath) in new[]
        {
            (AlarmKind.OverStroke, "+", AlarmState.LatchedUnacknowledged, AlarmState.LatchedUnacknowledged),
            (AlarmKind.OverStroke, "+a", AlarmState.LatchedAcknowledged, AlarmState.LatchedAcknowledged),
            (AlarmKind.HighStroke, "+", AlarmState.ReturnedUnacknowledged, AlarmState.ReturnedUnacknowledged),
            (AlarmKind.HighStroke, "+a", AlarmState.Normal, AlarmState.Normal),
            (AlarmKind.HighStroke, "s", AlarmState.Shelved, AlarmState.Normal),
            (AlarmKind.Strike, "+o", AlarmState.OutOfService, AlarmState.LatchedUnacknowledged),
            (AlarmKind.LowStroke, "+h", AlarmState.ReturnedUnacknowledged, AlarmState.ReturnedUnacknowledged),
        })
        {
            var before = new AlarmLife(new(kind), Table[kind]);
            var last = acts.Select(act => before.Take(Input(act, Noon)).Step).ToList()[^1]!;
            var after = new AlarmLife(new(kind), Table[kind]);
            after.Resume(last);
            Assert.Equal((state, beneath), (after.State, after.Beneath));
            Assert.Equal(before.ShelvedUntil, after.ShelvedUntil);
        }
    }

    [Fact]
    public void Whatever_happens_a_latched_danger_never_becomes_normal_without_acknowledgement_and_reset_and_the_journal_tells_all()
    {
        for (var seed = 1; seed <= 200; seed++)
        {
            var random = new Random(seed);
            var life = new AlarmLife(new(AlarmKind.Strike), Table[AlarmKind.Strike]);
            var (acknowledged, state) = (false, AlarmState.Normal);
            for (var i = 0; i < 200; i++)
            {
                var act = "+-arsuhxoi"[random.Next(10)];
                var before = life.Beneath;
                var step = life.Take(Input(act, Noon.AddSeconds(i))).Step;
                if (step is null)
                {
                    Assert.True((before, state) == (life.Beneath, life.State), $"seed {seed}: {act} changed something without a step");
                    continue;
                }

                Assert.True(step.From == state, $"seed {seed}");
                state = step.To;
                acknowledged = step.Beneath is AlarmState.Acknowledged or AlarmState.LatchedAcknowledged || (acknowledged && step.Beneath == AlarmState.Normal);
                if (step.Beneath == AlarmState.Normal && before != AlarmState.Normal)
                {
                    Assert.True(before == AlarmState.LatchedAcknowledged && step.Act == AlarmAct.Reset && acknowledged, $"seed {seed}: {before} to normal by {step.Act}");
                }
            }
        }
    }

    [Fact]
    public void Every_kind_of_alarm_has_a_row_and_a_name_that_is_read_back()
    {
        foreach (var kind in Enum.GetValues<AlarmKind>())
        {
            Assert.Equal(kind, Table[kind].Kind);
            Assert.True(AlarmId.TryParse(new AlarmId(kind).ToString(), out var id));
            Assert.Equal(new(kind), id);
        }

        Assert.True(AlarmId.TryParse("sensor-lost/front-left", out var placed));
        Assert.Equal(new(AlarmKind.SensorLost, StrokeWatch.Samples.Blocks.SensorPlace.FrontLeft), placed);
        Assert.False(AlarmId.TryParse("sensor-lost/middle", out _));
        Assert.False(AlarmId.TryParse("nothing", out _));
        Assert.All(Table.Rows, row => Assert.Equal(row.Kind is AlarmKind.OverStroke or AlarmKind.Strike, row.Latches));
    }

    private static AlarmInput Input(char act, DateTimeOffset at) => act switch
    {
        '+' => new(AlarmAct.Activate, at, "measurement", "it stands"),
        '-' => new(AlarmAct.Clear, at, "measurement", "it is over"),
        'a' => new(AlarmAct.Acknowledge, at, "operator"),
        'r' => new(AlarmAct.Reset, at, "operator"),
        's' => new(AlarmAct.Shelve, at, "operator", Until: at.AddMinutes(30)),
        'u' => new(AlarmAct.Unshelve, at, "operator"),
        'h' => new(AlarmAct.Suppress, at, "the feeder does not run"),
        'x' => new(AlarmAct.Unsuppress, at, "the feeder runs"),
        'o' => new(AlarmAct.TakeOutOfService, at, "engineer"),
        _ => new(AlarmAct.ReturnToService, at, "engineer"),
    };

    private static char Letter(AlarmState state) => (char)('A' + (int)state);
}
