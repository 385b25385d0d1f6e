using StrokeWatch.Assessment.Alarms;
using Xunit;

namespace StrokeWatch.Tests.Assessment.Alarms;

/// <summary>Criteria of IEC 62682, ANSI/ISA-18.2 and EEMUA 191, from memory.</summary>
public sealed class AlarmFiguresTests
{
    private static readonly DateTimeOffset Noon = new(2026, 3, 29, 12, 0, 0, TimeSpan.Zero);
    private static readonly AlarmTable Table = AlarmTable.Of(new());
    private readonly List<AlarmStep> journal = [];

    /// <summary>Kondaveeti, Izadi, Shah and others, ChERD 2013 (from memory): runs of 10, 12, 10 and 60 s.</summary>
    [Fact]
    public void The_chatter_index_is_the_mean_of_one_over_each_run()
    {
        Assert.Equal(0.075, AlarmFigures.ChatterIndex([10, 12, 10, 60]), 12);
        Assert.True(AlarmFigures.ChatterIndex([10, 12, 10, 60]) > AlarmFigures.ChatterLimit);
        Assert.Equal(0, AlarmFigures.ChatterIndex([]));
        foreach (var seconds in (double[])[0, 10, 22, 32, 92])
        {
            Stand(AlarmKind.HighStroke, seconds, 3);
        }

        var (id, index) = Assert.Single(Load(1).Chattering);
        Assert.Equal((AlarmKind.HighStroke, 0.075), (id.Kind, Math.Round(index, 12)));
    }

    [Fact]
    public void Three_in_a_minute_chatter_and_two_or_three_far_apart_do_not()
    {
        foreach (var seconds in (double[])[0, 50, 3600, 7200])
        {
            Stand(AlarmKind.HighStroke, seconds, 20);
        }

        foreach (var seconds in (double[])[0, 30, 60])
        {
            Stand(AlarmKind.LowStroke, seconds, 20);
        }

        Assert.Equal([AlarmKind.LowStroke], Load(24).Chattering.Select(one => one.Id.Kind));
    }

    [Fact]
    public void A_flood_begins_beyond_ten_in_ten_minutes_and_ends_below_five()
    {
        // Eleven, one every 30 s: the eleventh comes at 300 s. The seventh leaves the ten minutes at 180 + 600 s, and four are left.
        for (var i = 0; i < 11; i++)
        {
            Stand(AlarmKind.HighStroke, 30 * i, 10);
        }

        var load = Load(10);
        Assert.Equal((Noon.AddSeconds(300), Noon.AddSeconds(780)), Assert.Single(load.Floods));
        Assert.Equal(480 / 36000.0, load.FloodShare, 12);
        Assert.Equal(11, load.Announced);
        Assert.Equal(26.4, load.PerDay, 9);
    }

    [Fact]
    public void Ten_in_ten_minutes_are_no_flood_and_one_that_lasts_is_counted_to_the_end()
    {
        for (var i = 0; i < 10; i++)
        {
            Stand(AlarmKind.HighStroke, 30 * i, 10);
        }

        Assert.Empty(Load(10).Floods);
        for (var i = 0; i < 40; i++)
        {
            Stand(AlarmKind.LowStroke, 3000 + (20 * i), 10);
        }

        Assert.Equal(Noon.AddHours(1), Load(1).Floods.Single().To);
    }

    [Fact]
    public void An_alarm_that_stands_for_more_than_a_day_is_stale_even_where_it_began_before()
    {
        Stand(AlarmKind.LowStroke, 0, 90_000);
        Stand(AlarmKind.SensorClipped, 0, 80_000);
        Step(AlarmKind.SensorLost, AlarmAct.Activate, 1000);
        var load = AlarmFigures.Of(journal, Noon.AddHours(20), Noon.AddHours(30), Table);
        Assert.Equal(
            [(AlarmKind.LowStroke, TimeSpan.FromSeconds(90_000)), (AlarmKind.SensorLost, TimeSpan.FromHours(30) - TimeSpan.FromSeconds(1000))],
            load.Stale.Select(one => (one.Id.Kind, one.Stood)).OrderBy(one => one.Kind.ToString(), StringComparer.Ordinal));
        Assert.Equal(0, load.Announced);
    }

    [Fact]
    public void A_restart_ends_what_stood_unless_it_is_found_again_at_once()
    {
        // The program stops without a word of the end: the sensor was plugged in again before it started anew.
        Step(AlarmKind.SensorLost, AlarmAct.Activate, 0);
        Step(AlarmKind.SensorLost, AlarmAct.Activate, 4 * 86_400);
        Step(AlarmKind.SensorLost, AlarmAct.Clear, (4 * 86_400) + 60);
        Step(AlarmKind.LowStroke, AlarmAct.Activate, 0);
        Step(AlarmKind.LowStroke, AlarmAct.Activate, 7205);
        DateTimeOffset[] starts = [Noon.AddHours(-1), Noon.AddHours(2)];
        var load = AlarmFigures.Of([.. journal.OrderBy(step => step.At)], Noon, Noon.AddDays(5), Table, starts);
        var stale = Assert.Single(load.Stale);
        Assert.Equal((AlarmKind.LowStroke, TimeSpan.FromDays(5)), (stale.Id.Kind, stale.Stood));
        Assert.Equal(2, AlarmFigures.Of([.. journal.OrderBy(step => step.At)], Noon, Noon.AddDays(5), Table).Stale.Count);
    }

    [Fact]
    public void Fleeting_is_short_and_not_repeated_and_priorities_are_counted()
    {
        Stand(AlarmKind.OverStroke, 0, 4);
        Stand(AlarmKind.HighStroke, 500, 4);
        Stand(AlarmKind.HighStroke, 530, 4);
        Stand(AlarmKind.LowStroke, 1000, 60);
        var load = Load(1);
        Assert.Equal(1, load.Fleeting);
        Assert.Equal((1, 2, 1), (load.Priorities[AlarmPriority.Low], load.Priorities[AlarmPriority.Medium], load.Priorities[AlarmPriority.High]));
        Assert.Equal((AlarmKind.HighStroke, 2), (load.MostFrequent[0].Id.Kind, load.MostFrequent[0].Times));
    }

    [Fact]
    public void What_nobody_saw_asked_nothing_of_anybody()
    {
        var life = new AlarmLife(new(AlarmKind.HighStroke), Table[AlarmKind.HighStroke]);
        journal.Add(life.Take(new(AlarmAct.Shelve, Noon, "shift", Until: Noon.AddHours(1))).Step!);
        journal.Add(life.Take(new(AlarmAct.Activate, Noon.AddMinutes(1), "measurement")).Step!);
        Assert.Equal(0, Load(1).Announced);
        journal.Add(life.Take(new(AlarmAct.ShelfEnds, Noon.AddHours(1), "time")).Step!);
        Assert.Equal(1, Load(2).Announced);
    }

    [Fact]
    public void No_alarm_in_no_time_is_nothing_and_no_division_by_nought()
    {
        var load = AlarmFigures.Of([], Noon, Noon, Table);
        Assert.Equal((0, 0.0, 0.0), (load.Announced, load.PerDay, load.FloodShare));
    }

    private AlarmLoad Load(double hours) => AlarmFigures.Of([.. journal.OrderBy(step => step.At)], Noon, Noon.AddHours(hours), Table);

    private void Stand(AlarmKind kind, double fromSeconds, double seconds)
    {
        Step(kind, AlarmAct.Activate, fromSeconds);
        Step(kind, AlarmAct.Clear, fromSeconds + seconds);
    }

    private void Step(AlarmKind kind, AlarmAct act, double seconds)
    {
        var (from, to) = act == AlarmAct.Activate ? (AlarmState.Normal, AlarmState.Unacknowledged) : (AlarmState.Unacknowledged, AlarmState.ReturnedUnacknowledged);
        journal.Add(new(new(kind), act, from, to, to, Noon.AddSeconds(seconds), "measurement", "", null));
    }
}
