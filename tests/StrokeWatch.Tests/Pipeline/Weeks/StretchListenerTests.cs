using Microsoft.Extensions.Time.Testing;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Stretches;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Measurement.CoastDown;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Pipeline;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Sources;
using StrokeWatch.Sensors.Simulated;
using Xunit;

namespace StrokeWatch.Tests.Pipeline.Weeks;

/// <summary>How running is cut into stretches.</summary>
public sealed class StretchListenerTests
{
    private readonly FakeTimeProvider clock = new(new(2026, 3, 1, 8, 0, 0, TimeSpan.Zero));
    private readonly List<Stretch> stretches = [];
    private readonly HeldDesk desk = new();
    private StretchListener listener = null!;
    private double at;

    public StretchListenerTests() => Begin(new());

    [Fact]
    public void Steady_running_is_cut_every_hour_and_what_is_left_when_the_program_ends()
    {
        Run(9000);
        Finish();
        Assert.Equal([3600.0, 3600, 1800], stretches.Select(stretch => stretch.LengthSeconds));
        Assert.Equal([StretchEnd.Full, StretchEnd.Full, StretchEnd.Over], stretches.Select(stretch => stretch.Ended));
        Assert.Equal([0.0, 3600, 7200], stretches.Select(stretch => (stretch.From - new DateTimeOffset(2026, 3, 1, 8, 0, 0, TimeSpan.Zero)).TotalSeconds));
        Assert.All(stretches, stretch => Assert.Null(stretch.Features.Reason));
    }

    [Fact]
    public void A_stop_ends_a_stretch_and_a_tray_that_stands_still_is_none()
    {
        Run(1200);
        Stand(3000);
        Run(900);
        Stand(10);
        Finish();
        Assert.Equal([1200.0, 900], stretches.Select(stretch => stretch.LengthSeconds));
        Assert.All(stretches, stretch => Assert.Equal(StretchEnd.Stop, stretch.Ended));
    }

    [Fact]
    public void A_feeder_that_doses_in_bursts_has_one_stretch_over_many_of_them()
    {
        for (var burst = 0; burst < 60; burst++)
        {
            Run(10);
            Stand(20);
        }

        Finish();
        Assert.InRange(stretches.Count, 2, 4);
        Assert.All(stretches.SkipLast(1), stretch => Assert.True(stretch.Features.SteadyWindows > 150));
    }

    [Fact]
    public void Too_little_running_before_a_long_stop_says_so_and_tells_nothing()
    {
        Run(10);
        Stand(1000);
        var stretch = Assert.Single(stretches);
        Assert.Equal("it ran steadily for 10 s; 30 s are needed to tell anything", stretch.Features.Reason);
    }

    [Fact]
    public void A_sensor_that_was_away_ends_a_stretch_and_a_short_gap_does_not()
    {
        Run(1000);
        Window(5, WindowQuality.Gap, MotionState.Unknown, null);
        Run(1000);
        Window(500, WindowQuality.Gap, MotionState.Unknown, null);
        Run(1000);
        Finish();
        Assert.Equal([StretchEnd.Gap, StretchEnd.Over], stretches.Select(stretch => stretch.Ended));
        Assert.Equal(2005, stretches[0].LengthSeconds, 6);
        Assert.Equal(5 / 2005.0, stretches[0].Features.MissingShare, 6);
    }

    [Fact]
    public void An_alarm_marks_the_stretches_in_which_it_stands()
    {
        Run(3600);
        listener.Alarm(new(AlarmKind.HighStroke, true, at, null, "high"));
        Run(5400);
        listener.Alarm(new(AlarmKind.HighStroke, false, at, null, "no longer"));
        Run(5500);
        Finish();
        Assert.Equal([false, true, true, false, false], stretches.Select(stretch => stretch.Alarm));
    }

    [Fact]
    public void What_a_stop_told_belongs_to_the_stretch_that_it_ended_however_late_it_is_read()
    {
        desk.Hold = true;
        Run(1200);
        Stand(0.5);
        var stop = new DecayReading(at - 0.6, 52.3, 0.02, 0.05) { DampingUncertainty = 1e-3, DriveHz = 50 };
        desk.Post(() => () => listener.Decay(stop));
        Stand(30);
        var on = at;
        Run(5);
        var start = new StartReading(on, new DecayReading(on + 0.1, 60, 0.02, 0.05) { DriveHz = 50, From = TransientKind.Start }, null);
        desk.Post(() => () => listener.Start(start));
        Run(1200);
        Stand(30);
        desk.Hold = false;
        desk.Deliver();
        Finish();

        Assert.Equal(2, stretches.Count);
        Assert.Equal((52.3, 1), (stretches[0].Features.NaturalHz!.Value, stretches[0].Features.CoastDowns));
        Assert.Equal((60.0, 0), (stretches[1].Features.NaturalHz!.Value, stretches[1].Features.CoastDowns));
    }

    private void Begin(StretchSettings settings)
    {
        var scenario = DemoScenario.Create();
        listener = new(scenario.Feeder, settings, clock, desk, (stretch, _) => () => stretches.Add(stretch));
        var chain = new MeasurementChain(scenario.Feeder, new(), listener, desk);
        chain.Begin(ChainSettings.For(scenario.Feeder, new SourceInfo { Format = "frames", Axes = [Axis.X, Axis.Y, Axis.Z], RateHz = 4000 }, 4000));
    }

    private void Finish()
    {
        listener.Finish();
        desk.Deliver();
    }

    private void Run(double seconds)
    {
        for (var done = 0.0; done < seconds; done += 0.5)
        {
            Window(0.5, WindowQuality.Good, MotionState.Running, 1.7e-3);
        }
    }

    private void Stand(double seconds)
    {
        for (var done = 0.0; done < seconds; done += 0.5)
        {
            Window(0.5, WindowQuality.Good, MotionState.Stopped, null);
        }
    }

    private void Window(double seconds, WindowQuality quality, MotionState motion, double? stroke)
    {
        clock.Advance(TimeSpan.FromSeconds(seconds));
        listener.Window(new(
            new() { StartSeconds = at, LengthSeconds = seconds, Quality = quality, Motion = motion, StrokeMetres = stroke, NoiseMetres = 1e-7, FrequencyHz = 50 },
            quality == WindowQuality.Gap ? Verdict.Unmeasurable : stroke is null ? Verdict.Stopped : Verdict.InBand));
        at += seconds;
        desk.Deliver();
    }

    /// <summary>A desk that can be made to be slow.</summary>
    private sealed class HeldDesk : IDesk
    {
        private readonly Queue<Func<Action?>> waiting = new();

        public bool Hold { get; set; }

        public bool Post(Func<Action?> work)
        {
            waiting.Enqueue(work);
            return true;
        }

        public void Deliver()
        {
            while (!Hold && waiting.TryDequeue(out var work))
            {
                work()?.Invoke();
            }
        }

        public void Finish() => Deliver();

        public void Dispose()
        {
        }
    }
}
