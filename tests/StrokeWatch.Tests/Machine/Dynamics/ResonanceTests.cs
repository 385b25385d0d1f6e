using StrokeWatch.Machine.Dynamics;
using Xunit;

namespace StrokeWatch.Tests.Machine.Dynamics;

// Source of the numbers: shared check-values 6.2, 6.3, 6.6.
public sealed class ResonanceTests
{
    [Theory]
    [InlineData(0.95, 0.02, 9.5562605622, 21.2930308)]
    [InlineData(60.0 / 63, 0.02, 9.9529516072, 22.2816646)]
    [InlineData(1, 0.02, 25, 90)]
    [InlineData(1.05, 0.02, 9.0276205054, 157.718335)]
    [InlineData(0.9, 0.05, 4.7565149415, 25.3461759)]
    public void Magnification_and_phase_are_as_computed(double ratio, double damping, double magnification, double degrees)
    {
        Assert.Equal(magnification, Resonance.Magnification(ratio, damping), 9);
        Assert.Equal(degrees, Resonance.PhaseLag(ratio, damping) * 180 / Math.PI, 6);
    }

    [Fact]
    public void The_peak_lies_just_below_the_natural_frequency()
    {
        Assert.Equal(0.99959991997, Resonance.PeakRatio(0.02), 10);
        Assert.Equal(25.005001501, Resonance.PeakMagnification(0.02), 8);
        Assert.Equal(Resonance.PeakMagnification(0.02), Resonance.Magnification(Resonance.PeakRatio(0.02), 0.02), 10);
    }

    [Theory]
    [InlineData(5, 0, 0.04166666667)]
    [InlineData(5, 0.05, 0.04657464328)]
    [InlineData(1.4142135623730951, 0.3, 1)]
    [InlineData(10, 0.05, 0.01428425678)]
    public void A_soft_mount_keeps_the_shaking_from_the_floor(double ratio, double damping, double transmissibility) =>
        Assert.Equal(transmissibility, Resonance.Transmissibility(ratio, damping), 10);

    [Fact]
    public void The_half_power_width_over_reads_the_damping_a_little()
    {
        var (lower, upper) = Resonance.HalfPowerRatios(0.02);
        Assert.Equal(0.97939164832, lower, 10);
        Assert.Equal(1.0194076708, upper, 9);
        Assert.Equal(0.0200080112, (upper - lower) / 2, 9);
        (lower, upper) = Resonance.HalfPowerRatios(0.05);
        Assert.Equal(0.0501261052, (upper - lower) / 2, 9);
    }
}
