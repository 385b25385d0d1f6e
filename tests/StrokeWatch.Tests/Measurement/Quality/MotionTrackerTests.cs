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
        Assert.All(states[6..], state => Assert.Equal((MotionState.Running, true), state));
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

    private static (MotionState State, bool Steady)[] States(Func<double, double> metres, int windows)
    {
        var tracker = new MotionTracker(0.01e-3, 0.5);
        var states = new (MotionState, bool)[windows];
        var parts = new Complex[Parts];
        for (var n = 0; n < windows; n++)
        {
            for (var i = 0; i < Parts; i++)
            {
                parts[i] = Complex.FromPolarCoordinates(metres(Window * (n + ((i + 0.5) / Parts))), 0.3);
            }

            var steady = tracker.Take(parts, 1e-7, n * Window, Window);
            states[n] = (tracker.State, steady);
        }

        return states;
    }
}
