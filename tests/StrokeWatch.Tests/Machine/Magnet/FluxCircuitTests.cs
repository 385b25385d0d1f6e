using StrokeWatch.Machine.Magnet;
using Xunit;

namespace StrokeWatch.Tests.Machine.Magnet;

// Source of the ratios: shared check-values 6.8 (series of the squared flux, derived there and checked by quadrature); here they are quadratures of the circuit's own pull.
public sealed class FluxCircuitTests
{
    private const int StepsPerCycle = 1280;

    [Fact]
    public void A_rectified_supply_without_loss_makes_the_series_of_one_minus_cosine_squared()
    {
        var pull = Cycle(new() { Kind = DriveKind.HalfWave, ResistanceRatio = 1e-9 });
        Assert.Equal(1.5, Line(pull, 0).Cos, 4);
        Assert.Equal(-2, Line(pull, 1).Cos, 4);
        Assert.Equal(0.5, Line(pull, 2).Cos, 4);
        Assert.Equal(0, Magnitude(pull, 3), 4);
    }

    [Fact]
    public void A_full_wave_supply_pulls_twice_a_cycle()
    {
        var pull = Cycle(new() { Kind = DriveKind.FullWave, ResistanceRatio = 0.1 });
        Assert.Equal(0, Magnitude(pull, 1), 3);
        Assert.Equal(0.5 / 1.01, Magnitude(pull, 2), 3);
        Assert.Equal(0.5 / 1.01, Line(pull, 0).Cos, 3);
    }

    [Fact]
    public void A_biased_magnet_pulls_at_the_mains_frequency_with_a_quarter_at_twice_that()
    {
        var pull = Cycle(new() { Kind = DriveKind.MagnetBiased, ResistanceRatio = 0.05, BiasFlux = 1 / Math.Sqrt(1 + (0.05 * 0.05)) });
        Assert.Equal(0.25, Magnitude(pull, 2) / Magnitude(pull, 1), 3);
    }

    [Fact]
    public void A_biased_magnet_pulls_with_the_series_of_a_constant_and_an_alternating_flux()
    {
        // (B₀ + B₁ sin)²: mean B₀² + B₁²/2, 2B₀B₁ at the mains' frequency, B₁²/2 at twice that.
        const double resistance = 0.05, bias = 0.7;
        var pull = Cycle(new() { Kind = DriveKind.MagnetBiased, ResistanceRatio = resistance, BiasFlux = bias });
        var squared = 1 / (1 + (resistance * resistance));
        Assert.Equal((bias * bias) + (squared / 2), Line(pull, 0).Cos, 3);
        Assert.Equal(2 * bias * Math.Sqrt(squared), Magnitude(pull, 1), 3);
        Assert.Equal(squared / 2, Magnitude(pull, 2), 3);
        Assert.Equal(0, Magnitude(pull, 3), 3);
    }

    [Fact]
    public void A_supply_fired_at_its_crest_makes_the_series_of_squared_half_sine_pulses()
    {
        // Fired at 90° without loss the flux is −cos θ between 90° and 270°: the half sine of 6.8, a quarter of a cycle later, so that its sines at odd orders are cosines here.
        var pull = Cycle(new() { Kind = DriveKind.HalfWave, FiringDegrees = 90, ResistanceRatio = 1e-9 });
        Assert.Equal(0.25, Line(pull, 0).Cos, 6);
        Assert.Equal(-0.42441318158, Line(pull, 1).Cos, 6);
        Assert.Equal(0.25, Line(pull, 2).Cos, 6);
        Assert.Equal(-0.084882636316, Line(pull, 3).Cos, 6);
        Assert.Equal(0, Magnitude(pull, 4), 6);
        for (var order = 5; order <= 9; order += 2)
        {
            Assert.Equal(4 / (Math.PI * order * ((order * order) - 4)), Magnitude(pull, order), 6);
        }
    }

    [Theory]
    [InlineData(60)]
    [InlineData(90)]
    [InlineData(120)]
    [InlineData(150)]
    public void A_late_firing_makes_one_short_pulse_of_flux(double degrees)
    {
        // Flux between firing α and 2π − α is cos α − cos θ: Faraday's law without loss.
        var circuit = new FluxCircuit(new() { Kind = DriveKind.HalfWave, FiringDegrees = degrees, ResistanceRatio = 1e-9 });
        var alpha = degrees * Math.PI / 180;
        for (var n = 0; n < StepsPerCycle * 3; n++)
        {
            var to = 2 * Math.PI * (n + 1) / StepsPerCycle;
            circuit.Step(2 * Math.PI * n / StepsPerCycle, to, 1, 1, true);
            var phase = to % (2 * Math.PI);
            var expected = phase > alpha && phase < (2 * Math.PI) - alpha ? Math.Cos(alpha) - Math.Cos(phase) : 0;
            Assert.Equal(expected, circuit.Flux, 1e-5);
        }
    }

    [Fact]
    public void A_late_firing_holds_more_high_harmonics()
    {
        static double High(double[] pull) => Enumerable.Range(3, 8).Max(order => Magnitude(pull, order)) / Magnitude(pull, 1);
        var full = High(Cycle(new() { Kind = DriveKind.HalfWave }));
        var cut = High(Cycle(new() { Kind = DriveKind.HalfWave, FiringDegrees = 130 }));
        Assert.True(cut > 5 * full, $"{cut} against {full}");
    }

    [Fact]
    public void The_pull_goes_with_the_square_of_the_voltage()
    {
        var full = Cycle(new() { Kind = DriveKind.HalfWave });
        var ninety = Cycle(new() { Kind = DriveKind.HalfWave }, 0.9);
        Assert.Equal(Supply.ForceRatio(90, 100), ninety.Max() / full.Max(), 9);
    }

    [Fact]
    public void Once_the_gate_is_shut_the_flux_dies_at_the_current_s_zero()
    {
        var circuit = new FluxCircuit(new() { Kind = DriveKind.FullWave });
        for (var n = 0; n < StepsPerCycle * 4; n++)
        {
            circuit.Step(2 * Math.PI * n / StepsPerCycle, 2 * Math.PI * (n + 1) / StepsPerCycle, 1, 1, n < StepsPerCycle * 2.3);
        }

        Assert.Equal(0, circuit.Flux);
    }

    private static double[] Cycle(MagnetParameters parameters, double voltage = 1)
    {
        var circuit = new FluxCircuit(parameters);
        var pull = new double[StepsPerCycle];
        for (var n = 0; n < StepsPerCycle * 60; n++)
        {
            pull[n % StepsPerCycle] = circuit.Step(2 * Math.PI * n / StepsPerCycle, 2 * Math.PI * (n + 1) / StepsPerCycle, voltage, 1, true).Start;
        }

        return pull;
    }

    private static (double Cos, double Sin) Line(double[] pull, int order)
    {
        double c = 0, s = 0;
        for (var n = 0; n < pull.Length; n++)
        {
            var (sin, cos) = Math.SinCos(2 * Math.PI * order * n / pull.Length);
            c += pull[n] * cos;
            s += pull[n] * sin;
        }

        var scale = (order == 0 ? 1.0 : 2.0) / pull.Length;
        return (c * scale, s * scale);
    }

    private static double Magnitude(double[] pull, int order) => double.Hypot(Line(pull, order).Cos, Line(pull, order).Sin);
}
