using System.Numerics;
using StrokeWatch.Measurement.Quality;
using StrokeWatch.Measurement.Windows;
using Xunit;

namespace StrokeWatch.Tests.Measurement.Quality;

/// <summary>What the feeder does, from the fundamental in the parts of windows made for it.</summary>
public sealed class MotionTrackerTests
{
    private const int Parts = 8;
    private const double Window = 0.5;

    /// <summary>A supply that sags, or a strike that takes the swing, makes the stroke fall as a stop does; but then it stands.</summary>
    [Theory]
    [InlineData(0.4)]
    [InlineData(0.35)]
    public void A_stroke_that_falls_by_more_than_half_and_then_stands_runs_again_within_a_window(double share)
    {
        var states = States(t => t < 2.35 ? 1.5e-3 : 1.5e-3 * (share + ((1 - share) * Math.Exp(-(t - 2.35) / 0.08))), 12);

        Assert.Equal(MotionState.CoastingDown, states[4].State);
        Assert.All(states[6..], state => Assert.Equal((MotionState.Running, true, true), state));
    }

    /// <summary>Hard hammering takes a part of the swing, and what it leaves over counts as noise: the stroke stands all the same, whatever noise there is said to be.</summary>
    [Fact]
    public void A_stroke_that_falls_in_noise_and_then_stands_runs_again()
    {
        var states = States(t => t < 2.35 ? 1.6e-3 : 1.6e-3 * (0.73 - (0.35 * Math.Exp(-Math.Abs(t - 2.47) / 0.02))), 12, noise: 0.02e-3);

        Assert.Equal(MotionState.CoastingDown, states[4].State);
        Assert.All(states[6..], state => Assert.Equal((MotionState.Running, true, true), state));
    }

    /// <summary>Blows in every second cycle shake the parts of a window, but not one window against the next.</summary>
    [Fact]
    public void A_stroke_that_falls_and_is_shaken_as_much_in_every_window_runs_again()
    {
        var states = States(t => t < 2.35 ? 1.6e-3 : 1.0e-3 * ((int)(t * Parts / Window) % 2 == 0 ? 1.2 : 0.8) * (t < 2.5 && t > 2.44 ? 0.5 : 1), 12, noise: 0.06e-3);

        Assert.Equal(MotionState.CoastingDown, states[4].State);
        Assert.All(states[6..], state => Assert.Equal(MotionState.Running, state.State));
    }

    /// <summary>Hammering that shakes what is left so much that it seems to stop and to start: it is listened to from the second such window on.</summary>
    [Fact]
    public void What_is_shaken_like_a_stop_and_a_start_is_listened_to()
    {
        double[] fall = [1.9, 1.9, 1.7, 1.5, 1.4, 1.3, 1.2, 1.0], rise = [0.9, 1.0, 1.2, 1.1, 0.9, 0.8, 1.0, 1.35], shaken = [1.2, 1.0, 0.9, 1.1, 1.2, 0.9, 0.9, 1.0];
        var states = States(t => 1e-3 * (t < 2 ? 1.9 : t < 2.5 ? fall[Part(t)] : t < 3 ? rise[Part(t)] : shaken[Part(t)]), 12, noise: 0.02e-3);

        Assert.Equal((MotionState.CoastingDown, false, false), states[4]);
        Assert.Equal((MotionState.Starting, false, false), states[5]);
        Assert.All(states[6..], state => Assert.Equal((MotionState.Starting, false, true), state));

        static int Part(double t) => (int)(t * Parts / Window) % Parts;
    }

    /// <summary>A start out of standstill is not listened to, nor is a stop: the beat of the start is none of a strike's.</summary>
    [Fact]
    public void A_start_and_a_stop_are_not_listened_to()
    {
        var states = States(t => t < 2 ? 0 : t < 8 ? 1.5e-3 * (1 - Math.Exp(-(t - 2) / 0.3)) : 1.5e-3 * Math.Exp(-(t - 8) / 0.3), 24, settle: 3);

        Assert.Equal(Enumerable.Repeat(MotionState.Starting, 6), states[4..10].Select(state => state.State));
        Assert.All(states, state => Assert.Equal(state.State == MotionState.Running, state.Swings));
    }

    /// <summary>A tray that swings out in noise of a fiftieth of its stroke in every part: a hundred times.</summary>
    [Fact]
    public void A_tray_that_swings_out_in_noise_runs_no_more()
    {
        var random = new Random(7);
        for (var turn = 0; turn < 100; turn++)
        {
            var states = States(t => 1.5e-3 * Math.Max(0, (t < 2.1 ? 1 : Math.Exp(-(t - 2.1) / 0.4)) + (0.02 * Signal.Gauss(random))), 12, noise: 0.03e-3);
            Assert.DoesNotContain(states.SkipWhile(state => state.State != MotionState.CoastingDown), state => state.State == MotionState.Running);
        }
    }

    [Theory]
    [InlineData(0.15)]
    [InlineData(0.4)]
    public void A_tray_that_swings_out_runs_no_more(double timeConstant)
    {
        var states = States(t => 1.5e-3 * (t < 2.1 ? 1 : Math.Exp(-(t - 2.1) / timeConstant)), 40);

        Assert.DoesNotContain(states[5..], state => state.State == MotionState.Running);
        Assert.Equal(MotionState.Stopped, states[^1].State);
    }

    [Fact]
    public void What_a_neighbour_leaves_of_a_stopped_tray_is_not_its_stroke()
    {
        var states = States(t => 1.5e-3 * (t < 2.1 ? 1 : 0.1 + Math.Exp(-(t - 2.1) / 0.15)), 12);
        Assert.DoesNotContain(states[5..], state => state.State == MotionState.Running);
    }

    private static (MotionState State, bool Steady, bool Swings)[] States(Func<double, double> metres, int windows, double noise = 1e-7, double settle = 0.5)
    {
        var tracker = new MotionTracker(0.01e-3, settle);
        var states = new (MotionState, bool, bool)[windows];
        var parts = new Complex[Parts];
        for (var n = 0; n < windows; n++)
        {
            for (var i = 0; i < Parts; i++)
            {
                parts[i] = Complex.FromPolarCoordinates(metres(Window * (n + ((i + 0.5) / Parts))), 0.3);
            }

            var steady = tracker.Take(parts, noise, n * Window, Window);
            states[n] = (tracker.State, steady, tracker.Swings);
        }

        return states;
    }
}
