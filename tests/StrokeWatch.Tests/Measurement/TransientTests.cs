using StrokeWatch.Measurement.CoastDown;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Samples.Quantities;
using Xunit;

namespace StrokeWatch.Tests.Measurement;

/// <summary>Start-up beat and free decay of a driven two-mass system, in closed form (Harris, Shock and Vibration Handbook, ch. 2, from memory).</summary>
public sealed class TransientTests
{
    private const double DriveHz = 60;
    private const double NaturalHz = 63;
    private const double Damping = 0.02;
    private const double On = 1.3;
    private const double Off = 5.1;

    [Fact]
    public void A_start_is_masked_for_five_time_constants_and_no_longer_than_needed()
    {
        // τ = 1/(ζω) = 0.1263134469 s: five of them end 0.6316 s after the start; the overshoot of 1.28 times the steady stroke must not count.
        var (windows, _, _) = Run(seed: 7);
        var steady = windows.Where(window => window is { Quality: WindowQuality.Good, Motion: MotionState.Running }).ToList();

        Assert.InRange(steady[0].StartSeconds, On + 0.5, On + 1.3);
        Assert.All(steady, window => Assert.InRange(window.StrokeMetres!.Value, 0.995e-3 * 1.0770, 1.005e-3 * 1.0770));
        Assert.Contains(windows, window => window.Motion == MotionState.Starting && window.Quality == WindowQuality.Transient && Math.Abs(window.StrokeMetres!.Value / 1.077e-3 - 1) > 0.01);
        Assert.Contains(windows, window => window.Motion == MotionState.CoastingDown && window.Quality == WindowQuality.Transient);
        Assert.Equal(MotionState.Stopped, windows[0].Motion);
        Assert.Equal(MotionState.Stopped, windows[^1].Motion);
    }

    [Theory]
    [InlineData(7)]
    [InlineData(8)]
    [InlineData(9)]
    public void A_coast_down_gives_natural_frequency_and_damping(int seed)
    {
        var (_, decays, starts) = Run(seed);
        var decay = Assert.Single(decays);
        var damped = NaturalHz * Math.Sqrt(1 - Damping * Damping);

        Assert.InRange(decay.NaturalFrequencyHz / damped, 0.998, 1.002);
        Assert.InRange(decay.DampingRatio / Damping, 0.95, 1.05);
        Assert.InRange(decay.StartSeconds, Off - 0.02, Off + 0.1);
        Assert.True(Math.Abs(decay.NaturalFrequencyHz - damped) < 2 * decay.FrequencyUncertaintyHz, $"{decay}");
        Assert.Equal((TransientKind.Stop, TuningSide.Normal), (decay.From, decay.Side));

        // Check-values: the beat is |f_d − f| = 2.98739874 Hz, its time constant 1/(ζω_n) = 0.1263134469 s.
        var start = Assert.Single(starts);
        var beat = start.Decay!.Value;
        Assert.Equal((TransientKind.Start, TuningSide.Normal), (beat.From, beat.Side));
        Assert.InRange(start.StartSeconds, On - 0.05, On + 0.05);
        Assert.InRange(beat.NaturalFrequencyHz / damped, 0.998, 1.002);
        Assert.InRange(beat.DampingRatio / Damping, 0.92, 1.08);
        Assert.Equal(2.98739874, beat.NaturalFrequencyHz - DriveHz, 0.06);
        Assert.Equal(0.1263134469, 1 / (beat.DampingRatio * 2 * Math.PI * beat.NaturalFrequencyHz), 0.006);
    }

    [Fact]
    public void The_logarithmic_decrement_of_a_quarter_in_ten_cycles_is_found()
    {
        // x0/xn = 4 after 10 cycles: δ = ln 4 / 10, ζ = δ/√(4π² + δ²) = 0.022058191697.
        var collected = new TransientSamples(3200);
        collected.Begin(0);
        collected.Take(Enumerable.Range(-640, 4000)
            .Select(n => 5 * Math.Pow(4, -Math.Max(0, n) / 3200.0 * 60 / 10) * Math.Cos(2 * Math.PI * 60 * n / 3200.0 + 1) + 0.3).ToArray());

        var decay = CoastDownReader.Read(collected, new(60 / 3200.0, 60, 0))!.Value;

        Assert.Equal(0.022058191697, decay.DampingRatio, 2e-6);
        Assert.Equal(60, decay.NaturalFrequencyHz, 1e-3);
        Assert.Equal(TuningSide.Unknown, decay.Side);
    }

    private static (List<WindowReading> Windows, List<DecayReading> Decays, List<StartReading> Starts) Run(int seed)
    {
        var random = new Random(seed);
        var amplitude = Sinusoid.PeakAcceleration(Length.FromMillimetres(1), DriveHz);
        var (w, wn) = (2 * Math.PI * DriveHz, 2 * Math.PI * NaturalHz);
        var wd = wn * Math.Sqrt(1 - Damping * Damping);

        // x = cos wt less the free vibration that makes x and x' zero at the start; after the stop only free vibration from the state then.
        double X(double t) => Math.Cos(w * t) - Math.Exp(-Damping * wn * t) * (Math.Cos(wd * t) + Damping * wn / wd * Math.Sin(wd * t));
        double Step(Func<double, double> f, double t) => (f(t + 1e-5) - f(t - 1e-5)) / 2e-5;
        var span = Off - On;
        var (x0, v0) = (X(span), Step(X, span));
        double Free(double t) => Math.Exp(-Damping * wn * t) * (x0 * Math.Cos(wd * t) + (v0 + Damping * wn * x0) / wd * Math.Sin(wd * t));
        double Acceleration(Func<double, double> f, double t) => (f(t + 1e-4) - 2 * f(t) + f(t - 1e-4)) / 1e-8 / (w * w) * amplitude;
        var signal = (double t) =>
        {
            var along = t < On ? 0 : t < Off ? Acceleration(X, t - On) : Acceleration(Free, t - Off);
            return new[]
            {
                along + 0.2 * Signal.Gauss(random),
                0.2 * Signal.Gauss(random),
                0.4 * along + Gravity.Standard + 0.2 * Signal.Gauss(random),
            };
        };
        var meter = new StrokeWatch.Measurement.StrokeMeter(StrokeMeterTests.Settings(DriveHz, 3200));
        var sink = new Signal();
        foreach (var block in Signal.Blocks(signal, 3200, 8))
        {
            meter.Add(block, sink);
        }

        meter.Finish(sink);
        return (sink.Windows, sink.Decays, sink.Starts);
    }
}
