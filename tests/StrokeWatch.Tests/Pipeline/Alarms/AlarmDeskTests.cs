using Microsoft.Extensions.Time.Testing;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Measurement.CoastDown;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Pipeline;
using StrokeWatch.Pipeline.Alarms;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Tests.Outputs.Store;
using Xunit;

namespace StrokeWatch.Tests.Pipeline.Alarms;

/// <summary>The desk of alarms with a journal that the test itself writes, or does not.</summary>
public sealed class AlarmDeskTests : IAlarmJournal
{
    private static readonly DateTimeOffset Noon = new(2026, 3, 29, 12, 0, 0, TimeSpan.Zero);
    private static readonly AlarmId Over = new(AlarmKind.OverStroke);
    private static readonly AlarmId High = new(AlarmKind.HighStroke);
    private readonly FakeTimeProvider time = new(Noon);
    private readonly List<(AlarmStep Step, TaskCompletionSource<bool> Written)> rows = [];
    private readonly Ear record = new();
    private readonly Ear shown = new();
    private readonly WrongClock clock;
    private readonly AlarmDesk desk;
    private bool writes = true;
    private string? trouble;
    private double seconds;

    public AlarmDeskTests() => desk = new(AlarmTable.Of(new()), this, record, shown, clock = new(time));

    string? IAlarmJournal.Trouble => trouble;

    bool IAlarmJournal.Ready => true;

    Task<bool> IAlarmJournal.Write(AlarmStep step)
    {
        var written = new TaskCompletionSource<bool>();
        rows.Add((step, written));
        if (writes)
        {
            written.SetResult(true);
        }

        return written.Task;
    }

    [Fact]
    public void No_step_shows_before_it_is_written_and_all_do_in_their_order()
    {
        writes = false;
        Hear(High, true);
        Hear(High, false);
        Assert.Equal(2, rows.Count);
        desk.Deliver();
        Assert.Empty(record.Alarms);
        Assert.Empty(shown.Alarms);
        Assert.Empty(desk.Now);

        // The second is written first: it still waits for the first.
        rows[1].Written.SetResult(true);
        desk.Deliver();
        Assert.Empty(record.Alarms);
        rows[0].Written.SetResult(true);
        desk.Deliver();
        Assert.Equal([true, false], record.Alarms.Select(alarm => alarm.Raised));
        Assert.Equal([true, false], shown.Alarms.Select(alarm => alarm.Raised));
        Assert.Equal(AlarmState.ReturnedUnacknowledged, View(High).State);
        Assert.Equal(0, desk.Unwritten);
    }

    [Fact]
    public void An_alarm_that_cannot_be_written_is_shown_all_the_same_and_the_store_is_alarmed()
    {
        writes = false;
        Hear(Over, true);
        Pass(0.2);
        Assert.Empty(shown.Alarms);
        Pass(0.1);
        Assert.Equal(AlarmKind.OverStroke, Assert.Single(shown.Alarms).Kind);
        Assert.Equal(1, desk.Unwritten);
        Pass(6);
        Assert.Equal([AlarmKind.OverStroke, AlarmKind.StoreTrouble], shown.Alarms.Select(alarm => alarm.Kind));
        Assert.Contains("the journal of alarms cannot be written", shown.Alarms[1].Words, StringComparison.Ordinal);

        // In known trouble nothing waits.
        Hear(High, true);
        Assert.Equal(AlarmKind.HighStroke, shown.Alarms[^1].Kind);

        writes = true;
        rows.ForEach(row => row.Written.TrySetResult(true));
        Pass(10);
        Assert.Equal((AlarmKind.StoreTrouble, false), (shown.Alarms[^1].Kind, shown.Alarms[^1].Raised));
        Assert.Equal(AlarmState.ReturnedUnacknowledged, View(new(AlarmKind.StoreTrouble)).State);
    }

    [Fact]
    public void A_row_that_the_store_gives_up_is_store_trouble_at_once()
    {
        writes = false;
        Hear(Over, true);
        rows[0].Written.SetResult(false);
        desk.Deliver();
        writes = true;
        Pass(1);
        Assert.Equal([AlarmKind.OverStroke, AlarmKind.StoreTrouble], shown.Alarms.Select(alarm => alarm.Kind));
    }

    [Fact]
    public void A_disk_that_is_late_for_a_moment_is_no_trouble()
    {
        writes = false;
        Hear(Over, true);
        Pass(2);
        rows[0].Written.SetResult(true);
        Pass(20);
        Assert.Equal(AlarmKind.OverStroke, Assert.Single(shown.Alarms).Kind);
    }

    [Fact]
    public void The_stores_own_trouble_is_alarmed_after_its_delay_and_over_after_another()
    {
        trouble = "the disk is full: free some space";
        Pass(4);
        Assert.Empty(shown.Alarms);
        Pass(2);
        Assert.Contains("the disk is full: free some space", Assert.Single(shown.Alarms).Words, StringComparison.Ordinal);
        trouble = null;
        Pass(10);
        Assert.Equal([true, false], shown.Alarms.Select(alarm => alarm.Raised));
    }

    [Fact]
    public void An_output_that_fails_is_an_alarm_until_it_has_been_well_for_a_minute()
    {
        for (var i = 0; i < 5; i++)
        {
            desk.Failed("LivePanel");
            Pass(20);
        }

        Assert.Contains("LivePanel fails", Assert.Single(shown.Alarms).Words, StringComparison.Ordinal);
        Pass(61);
        Assert.Equal((AlarmKind.OutputTrouble, false), (shown.Alarms[^1].Kind, shown.Alarms[^1].Raised));
    }

    [Fact]
    public void Outputs_that_fail_together_are_all_named()
    {
        desk.Failed("the relay");
        desk.Failed("posting to the webhook");
        desk.Failed("the relay");
        Pass(1);
        Assert.StartsWith("Output trouble: the relay and posting to the webhook fail; the measurement goes on.", Assert.Single(shown.Alarms).Words, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Requests_from_other_threads_are_taken_in_turn_and_answered_once_they_are_written()
    {
        Hear(Over, true);
        writes = false;
        var acknowledged = await Task.Run(() => (Answer: desk.Ask(new(Over, AlarmAct.Acknowledge, "Operator at the panel")), 0));
        desk.Deliver();
        Assert.Equal(AlarmState.Unacknowledged, View(Over).State);
        Assert.False(acknowledged.Answer.IsCompleted);
        rows[^1].Written.SetResult(true);
        desk.Deliver();
        Assert.Null(await acknowledged.Answer);
        Assert.Equal((AlarmState.Acknowledged, "Operator at the panel"), (View(Over).State, View(Over).By));
        Assert.Equal((AlarmAct.Acknowledge, "Operator at the panel"), (rows[^1].Step.Act, rows[^1].Step.By));
        writes = true;

        Assert.Equal("over-stroke still stands: what causes it must go first", await Ask(new(Over, AlarmAct.Reset, "Operator")));
        Hear(Over, false);
        Assert.Equal(AlarmState.LatchedAcknowledged, View(Over).State);
        Assert.Null(await Ask(new(Over, AlarmAct.Reset, "Operator")));
        Assert.Equal(AlarmState.Normal, View(Over).State);
        Assert.Equal("say who asks", await Ask(new(Over, AlarmAct.Acknowledge, " ")));
        Assert.Equal("activate is not for people to ask", await Ask(new(Over, AlarmAct.Activate, "Operator")));
    }

    [Fact]
    public async Task Many_threads_may_ask_at_once_and_each_gets_its_answer()
    {
        Hear(High, true);
        var asked = Enumerable.Range(0, 64).Select(i => Task.Run(() => desk.Ask(new(High, AlarmAct.Acknowledge, $"person {i}")))).ToList();
        var all = Task.WhenAll(asked);
        for (var i = 0; i < 1000 && !all.IsCompleted; i++)
        {
            desk.Deliver();
            await Task.Delay(1);
        }

        var answers = await all;
        Assert.Equal(1, answers.Count(answer => answer is null));
        Assert.Equal(63, answers.Count(answer => answer == "high-stroke has nothing to acknowledge"));
    }

    [Fact]
    public async Task A_shelved_alarm_is_recorded_but_not_shown_until_its_shelf_ends_by_itself()
    {
        Assert.Null(await Ask(new(High, AlarmAct.Shelve, "Engineer", TimeSpan.FromHours(1), "belt is being changed")));
        Hear(High, true);
        Assert.Single(record.Alarms);
        Assert.Empty(shown.Alarms);
        Assert.Equal((AlarmState.Shelved, AlarmState.Unacknowledged, Noon.AddHours(1)), (View(High).State, View(High).Beneath, View(High).Until));
        Pass(3601);
        Assert.True(Assert.Single(shown.Alarms).Raised);
        Assert.Equal("HighStroke true", shown.Alarms[0].Words);
        Assert.Equal((AlarmAct.ShelfEnds, "time"), (rows[^1].Step.Act, rows[^1].Step.By));

        Assert.Null(await Ask(new(High, AlarmAct.TakeOutOfService, "Engineer")));
        Assert.Equal((false, "Taken out of service by Engineer: high-stroke."), (shown.Alarms[^1].Raised, shown.Alarms[^1].Words));
        Assert.Null(await Ask(new(High, AlarmAct.ReturnToService, "Engineer")));
        Assert.True(shown.Alarms[^1].Raised);
    }

    [Theory]
    [InlineData(-5)]
    [InlineData(0.25)]
    [InlineData(24 * 365 * 56)]
    public async Task A_shelf_lasts_no_longer_than_was_asked_whatever_the_date_is_set_to(double hours)
    {
        Assert.Null(await Ask(new(High, AlarmAct.Shelve, "Engineer", TimeSpan.FromHours(1))));
        Hear(High, true);
        Pass(60);
        Assert.Empty(shown.Alarms);
        clock.Offset = TimeSpan.FromHours(hours);
        Pass(3541);
        Assert.True(Assert.Single(shown.Alarms).Raised);
        Assert.Equal((AlarmAct.ShelfEnds, "time"), (rows[^1].Step.Act, rows[^1].Step.By));
    }

    [Fact]
    public void What_means_nothing_while_the_feeder_stands_is_suppressed_by_design_and_danger_never()
    {
        Window(MotionState.Running);
        Hear(High, true);
        Hear(Over, true);
        Window(MotionState.Stopped);
        Assert.Equal(AlarmState.SuppressedByDesign, View(High).State);
        Assert.Equal(AlarmState.Unacknowledged, View(Over).State);
        Hear(High, false);
        Window(MotionState.Starting);
        var before = rows.Count;
        Hear(new(AlarmKind.LowStroke), true);
        Assert.Equal([AlarmAct.Suppress, AlarmAct.Activate], rows.Skip(before).Select(row => row.Step.Act));
        Assert.DoesNotContain(shown.Alarms, alarm => alarm.Kind == AlarmKind.LowStroke);
        Window(MotionState.Running);
        Assert.True(shown.Alarms[^1] is { Kind: AlarmKind.LowStroke, Raised: true });

        // What is unseen and over leaves nothing; and a feeder that stops and starts a thousand times writes no row.
        Assert.Equal(AlarmState.ReturnedUnacknowledged, View(High).State);
        Hear(new(AlarmKind.LowStroke), false);
        before = rows.Count;
        for (var i = 0; i < 1000; i++)
        {
            Window(MotionState.Stopped);
            Window(MotionState.Running);
        }

        Assert.Equal(before, rows.Count);
    }

    [Fact]
    public void A_stuck_sensor_is_its_own_alarm_and_takes_the_place_of_what_follows_from_it()
    {
        for (var i = 0; i < 12; i++)
        {
            Window(MotionState.Unknown, stuck: true);
        }

        Assert.Equal(AlarmKind.SensorStuck, Assert.Single(shown.Alarms).Kind);
        Hear(new(AlarmKind.Unmeasurable), true);
        Assert.Equal(AlarmState.SuppressedByDesign, View(new(AlarmKind.Unmeasurable)).State);
        Assert.Single(shown.Alarms);
        Window(MotionState.Running);
        Assert.Contains(shown.Alarms, alarm => alarm is { Kind: AlarmKind.SensorStuck, Raised: false });
    }

    [Fact]
    public void Another_sensors_trouble_is_not_hidden_behind_a_stuck_one()
    {
        for (var i = 0; i < 6; i++)
        {
            Several(SensorPlace.Front);
            Window(MotionState.Running, failing: SensorPlace.Front);
        }

        Hear(new(AlarmKind.Unmeasurable), true);
        Assert.Equal(AlarmState.SuppressedByDesign, View(new(AlarmKind.Unmeasurable)).State);
        Several(SensorPlace.Front);
        Window(MotionState.Running, failing: SensorPlace.Rear);
        Assert.Equal(AlarmState.Unacknowledged, View(new(AlarmKind.Unmeasurable)).State);
    }

    [Fact]
    public void After_a_restart_the_journals_last_steps_stand_again()
    {
        Hear(Over, true);
        var last = rows.Select(row => row.Step).GroupBy(step => step.Id).Select(group => group.Last()).ToList();
        var again = new AlarmDesk(AlarmTable.Of(new()), this, record, shown, time);
        again.Resume(last);
        Assert.Equal(AlarmState.LatchedUnacknowledged, Assert.Single(again.Now).State);
    }

    [Fact]
    public async Task Each_step_since_an_alarm_came_up_says_by_whom_it_was_taken_and_says_so_after_a_restart_too()
    {
        Hear(Over, true);
        var asked = desk.Ask(new(Over, AlarmAct.Acknowledge, "Olga"));
        Pass(1);
        Assert.Null(await asked);
        Hear(Over, false);
        asked = desk.Ask(new(Over, AlarmAct.Reset, "Tom"));
        Pass(1);
        Assert.Null(await asked);
        (AlarmAct, string)[] expected = [(AlarmAct.Activate, "measurement"), (AlarmAct.Acknowledge, "Olga"), (AlarmAct.Clear, "measurement"), (AlarmAct.Reset, "Tom")];
        Assert.Equal(expected, View(Over).Steps.Select(step => (step.Act, step.By)));
        var again = new AlarmDesk(AlarmTable.Of(new()), this, record, shown, time);
        again.Resume([.. rows.Select(row => row.Step)]);
        Assert.Equal(expected, Assert.Single(again.Now).Steps.Select(step => (step.Act, step.By)));

        // The next time begins anew, and however long an alarm goes on only its newest steps are held.
        Hear(Over, true);
        Assert.Equal([AlarmAct.Activate], View(Over).Steps.Select(step => step.Act));
        for (var i = 0; i < 20; i++)
        {
            Hear(Over, false);
            Hear(Over, true);
        }

        Assert.Equal(AlarmView.MostSteps, View(Over).Steps.Count);
        Assert.Equal(AlarmAct.Activate, View(Over).Steps[^1].Act);
    }

    [Fact]
    public void What_waits_at_the_end_still_takes_effect()
    {
        writes = false;
        Hear(Over, true);
        desk.Finish();
        Assert.Single(shown.Alarms);
        Assert.True(shown.Finished);
    }

    private AlarmView View(AlarmId id) => desk.Now.Single(view => view.Id == id);

    private async Task<string?> Ask(AlarmRequest request)
    {
        var answer = desk.Ask(request);
        desk.Deliver();
        return await answer.WaitAsync(TimeSpan.FromSeconds(10));
    }

    private void Hear(AlarmId id, bool raised) => desk.Alarm(new(id.Kind, raised, seconds, null, $"{id.Kind} {(raised ? "true" : "false")}") { Place = id.Place });

    private void Pass(double by)
    {
        for (var passed = 0.0; passed < by - 1e-9; passed += 0.1)
        {
            time.Advance(TimeSpan.FromSeconds(0.1));
            desk.Deliver();
        }
    }

    private void Window(MotionState motion, bool stuck = false, SensorPlace? failing = null)
    {
        desk.Window(new(Reading(motion, stuck) with { FailingPlace = failing }, Verdict.InBand));
        seconds += 0.5;
    }

    private void Several(SensorPlace stuck) => desk.Several(new(
        new[] { SensorPlace.Front, SensorPlace.Rear }.Select(place => new StrokeWatch.Measurement.Stations.StationReading { Place = place, Reading = Reading(MotionState.Running, place == stuck) }).ToArray(), default));

    private WindowReading Reading(MotionState motion, bool stuck) =>
        new() { StartSeconds = seconds, LengthSeconds = 0.5, Quality = stuck ? WindowQuality.Noisy : WindowQuality.Good, Motion = motion, Stuck = stuck };

    private sealed class Ear : IChainListener
    {
        public List<AlarmTransition> Alarms { get; } = [];

        public bool Finished { get; private set; }

        public void Window(in AssessedWindow window)
        {
        }

        public void Decay(in DecayReading decay)
        {
        }

        public void Alarm(in AlarmTransition transition) => Alarms.Add(transition);

        public void Finish() => Finished = true;
    }
}
