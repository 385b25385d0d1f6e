using StrokeWatch.Machine.Feeder;
using StrokeWatch.Measurement.Calibration;
using StrokeWatch.Measurement.Drive;
using StrokeWatch.Measurement.Stroke;
using StrokeWatch.Measurement.Uncertainty;
using StrokeWatch.Pipeline;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Samples.Sources;
using Xunit;

namespace StrokeWatch.Tests.Measurement;

/// <summary>
/// What a MEMS accelerometer's noise, rounding, range, clock and direction do to a stroke. Derived from first principles and computed with mpmath, unless a source stands
/// beside the check. Tumble, tilt of the reference and local gravity stand in <c>Calibration/TumbleTests</c>.
/// </summary>
public sealed class SensorPhysicsTests
{
    private const double G = Gravity.Standard;

    [Theory]
    [InlineData(25e-6, 60, 1.725037128e-09)]
    [InlineData(100e-6, 60, 6.900148511e-09)]
    [InlineData(100e-6, 25, 3.974485542e-08)]
    public void A_noise_density_in_g_is_a_displacement_density_in_metres(double density, double hertz, double metres) =>
        Assert.Equal(1, 0.5 * Sinusoid.Stroke(density * G, hertz).Metres / metres, 9);

    // sd(D) = 2ng/(√T(2πf)²), since σ² = n²fs/2: 100 µg/√Hz, 60 Hz and 1 s make 0.013800297 µm.
    [Fact]
    public void The_noise_of_a_stroke_follows_from_the_sensors_density_and_the_time_alone()
    {
        const double Density = 100e-6 * G;
        Assert.Equal(0.013800297e-6, Sinusoid.Stroke(Density, 60).Metres, 15);
        foreach (var rate in new double[] { 1600, 6400 })
        {
            var windows = StrokeMeterTests.Measure(
                Signal.Feeder(1.5e-3, 60, 20, Density * Math.Sqrt(rate / 2), 46), StrokeMeterTests.Settings(60, rate), 30);
            var expected = Sinusoid.Stroke(Density, 60).Metres / Math.Sqrt(0.5);
            Assert.All(windows, window => Assert.InRange(window.NoiseMetres!.Value / expected, 0.9, 1.1));
            var mean = windows.Average(window => window.FundamentalMetres!.Value);
            var deviation = Math.Sqrt(windows.Sum(window => Math.Pow(window.FundamentalMetres!.Value - mean, 2)) / (windows.Count - 1));
            Assert.InRange(deviation / expected, 0.75, 1.25);
        }
    }

    // q/√12 and q/√(6fs); 20 log₁₀(2ᴮ√1.5) dB for a full-scale sine (from memory): 98.0905112 and 74.0081115.
    [Theory]
    [InlineData(16, 98.0905112)]
    [InlineData(12, 74.0081115)]
    public void Rounding_leaves_a_residual_of_a_step_over_the_root_of_twelve(int bits, double decibels)
    {
        const int Count = 20_000;
        const double FullScale = 16 * G;
        var step = 2 * FullScale / (1 << bits);
        var frequency = 0.0137 * Math.Sqrt(2);
        var samples = Enumerable.Range(0, Count).Select(n => step * Math.Round(FullScale * Math.Cos(2 * Math.PI * frequency * n) / step)).ToArray();
        var fit = new HarmonicFit(1, 1);
        Assert.True(fit.Fit([samples], 0, Count, frequency, 1, follow: false));

        Assert.Equal(step / Math.Sqrt(12), Distributions.Rectangular(step / 2), 12);
        Assert.Equal(1, fit.ResidualDeviation / Distributions.Rectangular(step / 2), 0.02);
        Assert.Equal(decibels, 20 * Math.Log10(FullScale / Math.Sqrt(2) / fit.ResidualDeviation), 0.2);
        if (bits == 16)
        {
            Assert.Equal(488.28125e-6 * G, step, 12);
            Assert.Equal(140.954656e-6 * G, Distributions.Rectangular(step / 2), 10);
            Assert.Equal(3.52386639e-6 * G, Distributions.Rectangular(step / 2) * Math.Sqrt(2 / 3200.0), 11);
        }
    }

    [Theory]
    [InlineData(8, 0, 0.04346550243)]
    [InlineData(16, 0, 0.08693100486)]
    [InlineData(16, 1, 0.0814978171)]
    public void A_range_holds_a_stroke_and_gravity_takes_its_part(double range, double standing, double inches) =>
        Assert.Equal(inches, Sinusoid.Stroke((range - standing) * G, 60).Inches, 10);

    // Sixty thousandths of an inch at 60 Hz peak at 11.04 g: an 8 g part clips, 16 g leave 4.96 g, 3.96 g with gravity on the axis.
    [Fact]
    public void Sixty_thousandths_at_sixty_hertz_clip_a_part_of_8_g_and_not_one_of_16()
    {
        Assert.Equal(4.96, 16 - Sinusoid.PeakAcceleration(Length.FromInches(0.06), 60) / G, 2);
        foreach (var (range, clipped) in new[] { (8.0, true), (16.0, false) })
        {
            var feeder = Signal.Feeder(0.06 * Length.MetresPerInch, 60, 20, 0.05, 47);
            var settings = StrokeMeterTests.Settings(60, 3200) with { FullScale = range * G };
            var windows = StrokeMeterTests.Measure(t => [.. feeder(t).Select(value => Math.Clamp(value, -range * G, range * G))], settings, 2);
            Assert.All(windows, window => Assert.Equal(clipped, window.ClippedSamples > 0));
            Assert.All(windows, window => Assert.Equal(clipped, window.StrokeMetres is null));
        }
    }

    // Up reads 1.031 g, down -0.973 g: bias (U + D)/2 = 0.029, scale (U − D)/2 = 1.002; a reading of 11.00 g is 10.9491018 g.
    [Fact]
    public void Up_and_down_tell_an_axiss_bias_and_scale()
    {
        double[][] lying = [[0, 0, 0.029], [0, 0, 0.029], [0, 0, 0.029], [0, 0, 0.029], [0, 0, 1.031], [0, 0, -0.973]];
        var whole = TumbleFit.Of(lying, 1);
        Assert.Equal(0.029, whole.Bias[2], 12);
        Assert.Equal(1.002, whole.Gain[8], 12);
        Assert.Equal(10.9491018, (11.0 - whole.Bias[2]) / whole.Gain[8], 7);
    }

    // A clock 1 % fast: 60 Hz looks like 59.40594059 Hz, the stroke like 2.01 % more.
    [Fact]
    public void A_clock_one_percent_fast_makes_a_free_drives_stroke_two_percent_large_and_the_mains_tells_it()
    {
        var feeder = Signal.Feeder(1.5e-3, 60, 20, 0.01, 48);
        var free = StrokeMeterTests.Measure(feeder, StrokeMeterTests.Settings(60, 3200) with { FreeDrive = true }, 3, clockError: 0.01);
        Assert.All(free, window => Assert.Equal(59.40594059, window.FrequencyHz!.Value, 1e-4));
        Assert.All(free, window => Assert.Equal(1.0201, window.StrokeMetres!.Value / 1.5e-3, 2e-4));

        var locked = StrokeMeterTests.Measure(feeder, StrokeMeterTests.Settings(60, 3200), 3, clockError: 0.01);
        Assert.All(locked, window => Assert.Equal(0.01, window.ClockError!.Value, 1e-6));
        Assert.All(locked, window => Assert.Equal(1, window.StrokeMetres!.Value / 1.5e-3, 2e-4));
    }

    // Folding, |f − fs·round(f/fs)|. The program has no function for it: what a sensor without a filter folds is found where the arithmetic puts it.
    [Theory]
    [InlineData(780, 800, 20)]
    [InlineData(900, 800, 100)]
    [InlineData(480, 400, 80)]
    [InlineData(960, 1000, 40)]
    public void A_tone_beyond_half_the_rate_is_found_folded(double hertz, double rate, double folded)
    {
        Assert.Equal(folded, Math.Abs(hertz - rate * Math.Round(hertz / rate)), 9);
        var samples = Enumerable.Range(0, 1000).Select(n => Math.Cos(2 * Math.PI * hertz * n / rate + 0.3)).ToArray();
        var found = new LineScan().Find([samples], 0, samples.Length, 0.01, 0.45);
        Assert.Equal(folded, SineFit.Free(samples, found).CyclesPerSample * rate, 1e-6);
    }

    // 1/sin β: 20° makes 2.9238044, 25° 2.36620158; a degree beside 20° makes 4.7798 %.
    [Fact]
    public void A_vertical_axis_alone_is_divided_by_the_sine_of_the_line_of_action()
    {
        double Weight(double degrees) => new LineOfAction([Axis.Z], degrees).Given[0];
        Assert.Equal(2.9238044, Weight(20), 7);
        Assert.Equal(2.36620158, Weight(25), 8);
        Assert.Equal(0.047798, Weight(20) / Weight(21) - 1, 6);
    }

    [Fact]
    public void The_budget_of_a_vertical_axis_counts_the_degree_that_its_line_may_be_off()
    {
        var feeder = new FeederDescription
        {
            Name = "Soda ash feeder",
            Drive = new(60, 1, Free: false),
            Band = new(Length.FromMillimetres(1.4), Length.FromMillimetres(1.6), Length.FromMillimetres(1.8)),
            LineAngleDegrees = 20,
        };
        StrokeContribution Alignment(params Axis[] axes) => KnownContributions
            .For(feeder with { LineAngleDegrees = axes.Length == 1 ? 20 : null }, new SourceInfo { Axes = axes, Format = "csv" })
            .Items.Single(item => item.Name == StrokeContributions.Alignment);

        // Half-width 4.8 %, rectangular; three axes find the line themselves and lose 1 − cos 1° = 0.0152 % at most.
        Assert.Equal(0.047798 / Math.Sqrt(3), Alignment(Axis.Z).Relative, 0.0005);
        Assert.Equal(152.3048e-6 / Math.Sqrt(3), Alignment(Axis.X, Axis.Y, Axis.Z).Relative, 9);
        Assert.Equal(1e-3, Alignment(Axis.X, Axis.Z).Relative, 12);
    }
}
