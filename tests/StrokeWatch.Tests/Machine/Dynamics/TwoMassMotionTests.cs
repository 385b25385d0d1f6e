using StrokeWatch.Machine.Dynamics;
using Xunit;

namespace StrokeWatch.Tests.Machine.Dynamics;

public sealed class TwoMassMotionTests
{
    private const double Fixed = 1e12;

    [Fact]
    public void A_start_from_rest_beats_as_the_closed_form_says()
    {
        // Shared check-values 6.11: 60 Hz into 63 Hz, damping 0.02: peak 1.2805531 times the steady amplitude at 0.13888 s.
        var stiffness = TwoMass.StiffnessFor(63, 1, Fixed);
        var motion = new TwoMassMotion(new() { TrayKilograms = 1, BodyKilograms = Fixed, Stiffness = stiffness, Damping = 0.04 * Math.Sqrt(stiffness) });
        const double h = 1e-5;
        double peak = 0, at = 0;
        for (var n = 0; n < 200000; n++)
        {
            motion.Step(h, default, Sine(n * h, h, 60, stiffness));
            if (Math.Abs(motion.Opening) > peak)
            {
                (peak, at) = (Math.Abs(motion.Opening), (n + 1) * h);
            }
        }

        Assert.Equal(1.2805531, peak / Resonance.Magnification(60.0 / 63, 0.02), 5);
        Assert.Equal(0.13888, at, 4);
    }

    [Theory]
    [InlineData(63.1626599022, 0, 6.81770135)]
    [InlineData(63.1626599022, 0.6, 9.22111137)]
    [InlineData(63.1626599022, 1.2, 13.2015868)]
    [InlineData(57, 0, 6.16037511)]
    [InlineData(57, 0.6, 4.59791763)]
    public void The_steady_stroke_is_that_of_the_closed_form_on_either_side_of_resonance(double naturalHz, double load, double response)
    {
        // Shared check-values 6.4: masses 12 and 30 kg, damping ratio 0.02 of the loaded feeder, drive 60 Hz.
        var stiffness = TwoMass.StiffnessFor(naturalHz, 12, 30);
        var damping = MechanicalParameters.DampingFor(0.02, stiffness, TwoMass.ReducedMass(12 + load, 30));
        var motion = new TwoMassMotion(new() { TrayKilograms = 12 + load, BodyKilograms = 30, Stiffness = stiffness, Damping = damping });
        const double h = 1.0 / 60 / 800;
        double low = 0, high = 0;
        for (var n = 0; n < 800 * 200; n++)
        {
            var force = Sine(n * h, h, 60, stiffness);
            motion.Step(h, (-force.Start, -force.Middle, -force.End), default);
            if (n >= 800 * 199)
            {
                (low, high) = (Math.Min(low, motion.Opening), Math.Max(high, motion.Opening));
            }
        }

        Assert.Equal(response, (high - low) / 2 * TwoMass.TrayShare(12 + load, 30), 3);
    }

    [Fact]
    public void A_coast_down_shows_the_damped_frequency_and_damping()
    {
        var parts = new MechanicalParameters { TrayKilograms = 35, BodyKilograms = 70, Stiffness = 2.5e6, Damping = 250, MountStiffness = 8e4, MountDamping = 500 };
        var (hz, damping) = FreeModes.Highest(parts);
        var motion = new TwoMassMotion(parts);
        motion.Set(1e-3 * 2 / 3, 0, -1e-3 / 3, 0);
        const double h = 1e-5;
        var crossings = new List<double>();
        var peaks = new List<double>();
        double before = motion.Opening, speed = 0;
        for (var n = 0; n < 50000; n++)
        {
            motion.Step(h, default, default);
            if (before < 0 && motion.Opening >= 0)
            {
                crossings.Add(h * (n + (before / (before - motion.Opening))));
            }

            if (speed > 0 && motion.OpeningSpeed <= 0)
            {
                peaks.Add(motion.Opening);
            }

            (before, speed) = (motion.Opening, motion.OpeningSpeed);
        }

        var cycles = crossings.Count - 1;
        Assert.True(cycles >= 20);
        Assert.Equal(1, cycles / (crossings[^1] - crossings[0]) / hz, 1e-4);
        Assert.Equal(1, Decay.DampingRatio(Decay.LogDecrement(peaks[0], peaks[20], 20)) / damping, 0.01);
    }

    [Fact]
    public void Without_loss_the_energy_stays()
    {
        var motion = new TwoMassMotion(new() { TrayKilograms = 35, BodyKilograms = 70, Stiffness = 2.5e6, MountStiffness = 8e4 });
        motion.Set(1e-3, 0.1, 0, -0.05);
        var energy = motion.Energy();
        for (var n = 0; n < 64000; n++)
        {
            motion.Step(1.0 / 64000, default, default);
        }

        Assert.Equal(1, motion.Energy() / energy, 6);
    }

    [Theory]
    [InlineData(0.3)]
    [InlineData(0.5)]
    [InlineData(0.9)]
    [InlineData(1)]
    public void A_blow_gives_back_the_speed_that_the_restitution_says(double restitution)
    {
        var law = ContactLaw.From(0.5e-3, restitution, 0.1, TwoMass.ReducedMass(35, 70));
        var motion = new TwoMassMotion(new() { TrayKilograms = 35, BodyKilograms = 70, Stiffness = 0, ContactGap = 1e-4, Contact = law });
        motion.Set(0, -0.1, 0, 0);
        var momentum = 35 * motion.TrayVelocity;
        double longest = 0;
        for (var n = 0; n < 500; n++)
        {
            motion.Step(1.0 / 64000, default, default);
            longest += motion.ContactForce > 0 ? 1.0 / 64000 : 0;
            Assert.True(motion.ContactForce >= 0);
        }

        Assert.Equal(restitution, motion.OpeningSpeed / 0.1, 2);
        Assert.Equal(momentum, (35 * motion.TrayVelocity) + (70 * motion.BodyVelocity), 9);
        Assert.InRange(longest, 0.4e-3, 0.7e-3);
    }

    [Theory]
    [InlineData(0.1, 1.1, 0.3, 0.6, 1, 0.283858046929, 0.1590244878)]
    [InlineData(0.1, 1.05, 0.5, 0.5, 1, 0.296037477331, 0.1484148578)]
    [InlineData(1, 2.0, 0.2, 0.5, 1, 2.13333333333, 2.037183272)]
    [InlineData(0.1, 0.9, 0.4, 0.5, 3, 0.278510969143, 0.0398937577)]
    public void A_stiff_contact_strikes_as_fast_as_a_rigid_stop(double force, double omega, double stop, double restitution, int cycles, double speed, double floor)
    {
        // Shared check-values 9.3 (closed form, reproduced there by event-driven simulation).
        Assert.Equal(speed, RigidStop.ImpactSpeed(force, omega, stop, restitution, cycles)!.Value, 9);
        Assert.Equal(floor, RigidStop.LineFloor(speed, omega, restitution, cycles), 8);

        // The contact is short against the drive, and the step short against the contact where armature and stop are near each other.
        var law = ContactLaw.From(4e-4, restitution, speed, 1);
        var motion = new TwoMassMotion(new() { TrayKilograms = 1, BodyKilograms = Fixed, Stiffness = 1, ContactGap = stop, Contact = law });
        double t = 0, impact = 0, last = 0, interval = 0;
        while (t < 600)
        {
            var h = motion.Opening + stop < 0.01 ? 1e-5 : 1e-3;
            var (before, closing) = (motion.Opening, -motion.OpeningSpeed);
            motion.Step(h, default, (-force * Math.Cos(omega * t), -force * Math.Cos(omega * (t + (h / 2))), -force * Math.Cos(omega * (t + h))));
            t += h;
            if (motion.Opening < -stop && before >= -stop)
            {
                (impact, interval, last) = (closing, t - last, t);
            }
        }

        Assert.InRange(impact / speed, 0.99, 1.01);
        Assert.Equal(cycles, interval * omega / (2 * Math.PI), 2);
    }

    private static (double Start, double Middle, double End) Sine(double t, double h, double hz, double amplitude) => (
        amplitude * Math.Sin(2 * Math.PI * hz * t),
        amplitude * Math.Sin(2 * Math.PI * hz * (t + (h / 2))),
        amplitude * Math.Sin(2 * Math.PI * hz * (t + h)));
}
