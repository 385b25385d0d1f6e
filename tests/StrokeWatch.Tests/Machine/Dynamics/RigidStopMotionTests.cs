using System.Numerics;
using StrokeWatch.Machine.Dynamics;
using Xunit;

namespace StrokeWatch.Tests.Machine.Dynamics;

/// <summary>Shared check-values 9.2 and 9.3 (after Shaw and Holmes, J. Sound Vib. 90 (1983) 129-155): which rhythms a rigid stop settles to, and the lines they make.</summary>
public sealed class RigidStopMotionTests
{
    [Theory]
    [InlineData(0.1, 1.1, 0.3, 0.6, 1, 0.283858046929)]
    [InlineData(0.1, 1.05, 0.5, 0.5, 1, 0.296037477331)]
    [InlineData(1, 2.0, 0.2, 0.5, 1, 2.13333333333)]
    [InlineData(0.1, 0.9, 0.4, 0.5, 3, 0.278510969143)]
    public void The_motion_settles_to_the_orbit_that_is_stable(double force, double omega, double stop, double restitution, int cycles, double speed)
    {
        var (times, speeds) = Settled(force, omega, stop, restitution, 400, 6);
        var cycle = 2 * Math.PI / omega;
        for (var i = 1; i < times.Length; i++)
        {
            Assert.Equal(speed, speeds[i], 8);
            Assert.Equal(cycles, (times[i] - times[i - 1]) / cycle, 8);
        }

        Assert.Equal(speed, RigidStop.ImpactSpeed(force, omega, stop, restitution, cycles)!.Value, 9);
    }

    [Fact]
    public void Striking_may_settle_to_two_uneven_blows_in_two_cycles_and_then_shows_half_orders()
    {
        var (times, speeds) = Settled(0.1, 0.8, 0.2, 0.5, 400, 5);
        var cycle = 2 * Math.PI / 0.8;
        var first = (times[1] - times[0]) / cycle < 1 ? 0 : 1;
        Assert.Equal(0.890782, (times[first + 1] - times[first]) / cycle, 6);
        Assert.Equal(1.109218, (times[first + 2] - times[first + 1]) / cycle, 6);
        Assert.Equal(0.141489807, Math.Max(speeds[0], speeds[1]), 8);
        Assert.Equal(0.104564198, Math.Min(speeds[0], speeds[1]), 8);

        // Impulses J1 at 0 and J2 at t2 in two cycles: the line at k/2 orders is |J1 + J2 exp(-i pi k t2/T)| over the period's two cycles (9.2).
        var half = Line(times, speeds, cycle, 1);
        var full = Line(times, speeds, cycle, 2);
        Assert.InRange(half / full, 0.15, 0.35);
    }

    [Fact]
    public void Alternate_impulses_give_the_half_order_that_their_difference_says()
    {
        // 9.2: impulses J(1+e), J(1-e) in turn: half order over full order is e.
        Assert.Equal(0.1, Line([0, 1, 2], [1.1, 0.9, 1.1], 1, 1) / Line([0, 1, 2], [1.1, 0.9, 1.1], 1, 2), 12);
    }

    private static double Line(double[] times, double[] speeds, double cycle, int halfOrder)
    {
        Complex sum = 0;
        for (var i = 0; i < 2; i++)
        {
            sum += speeds[i] * Complex.FromPolarCoordinates(1, -Math.PI * halfOrder * (times[i] - times[0]) / cycle);
        }

        return sum.Magnitude;
    }

    private static (double[] Times, double[] Speeds) Settled(double force, double omega, double stop, double restitution, int before, int count)
    {
        var motion = new RigidStopMotion(force, omega, stop, restitution);
        var (times, speeds) = (new double[count], new double[count]);
        for (var i = -before; i < count; i++)
        {
            var (time, speed) = motion.Next()!.Value;
            if (i >= 0)
            {
                (times[i], speeds[i]) = (time, speed);
            }
        }

        return (times, speeds);
    }
}
