using StrokeWatch.Machine.Dynamics;
using Xunit;

namespace StrokeWatch.Tests.Machine.Dynamics;

public sealed class ModalOscillatorTests
{
    [Fact]
    public void It_rings_with_its_own_frequency_and_damping()
    {
        // Closed form of the step response: q = u/ω² (1 − e^(−ζωt)(cos ω_d t + ζω/ω_d sin ω_d t)); textbook, from memory.
        const double h = 1.0 / 64000, zeta = 0.02;
        var omega = 2 * Math.PI * 760;
        var damped = omega * Math.Sqrt(1 - (zeta * zeta));
        var oscillator = new ModalOscillator(760, zeta, h);
        for (var n = 1; n <= 2000; n++)
        {
            oscillator.Step(1);

            // The first input rises over one step: half a step later than a jump at time zero.
            var t = (n - 0.5) * h;
            var expected = (1 - (Math.Exp(-zeta * omega * t) * (Math.Cos(damped * t) + (zeta * omega / damped * Math.Sin(damped * t))))) / (omega * omega);
            Assert.Equal(expected, oscillator.Displacement, 1e-3 / (omega * omega));
        }
    }

    [Fact]
    public void Far_below_its_frequency_it_follows_its_force()
    {
        const double h = 1.0 / 64000;
        var oscillator = new ModalOscillator(760, 0.02, h);
        double peak = 0;
        for (var n = 1; n < 64000; n++)
        {
            oscillator.Step(Math.Sin(2 * Math.PI * 50 * n * h));
            peak = n > 32000 ? Math.Max(peak, oscillator.Displacement) : 0;
        }

        Assert.Equal(Resonance.Magnification(50.0 / 760, 0.02), peak * Math.Pow(2 * Math.PI * 760, 2), 4);
    }
}
