using StrokeWatch.Machine.Dynamics;
using StrokeWatch.Machine.Magnet;
using Xunit;

namespace StrokeWatch.Tests.Machine.Magnet;

// Source of the numbers: shared check-values 6.7, 6.9, 6.10.
public sealed class MagnetFormulaTests
{
    [Fact]
    public void Pull_is_that_of_the_maxwell_stress()
    {
        Assert.Equal(397887.35773, Attraction.PoleForce(1, 1), 5);
        Assert.Equal(509.29581789, Attraction.PoleForce(0.8, 20e-4), 7);
        Assert.Equal(226.19467106, Attraction.CurrentDriven(600, 2, 20e-4, 2e-3), 7);
        Assert.Equal(4, Attraction.CurrentDriven(600, 2, 20e-4, 1e-3) / Attraction.CurrentDriven(600, 2, 20e-4, 2e-3), 12);
        var flux = Attraction.PeakFlux(230, 50, 600);
        Assert.Equal(0.0017256062726, flux, 12);
        Assert.Equal(592.39797622, Attraction.PoleForce(flux / 20e-4, 20e-4), 6);
    }

    [Fact]
    public void Force_and_stroke_go_with_the_square_of_the_voltage()
    {
        Assert.Equal(0.81, Supply.ForceRatio(207, 230), 12);
        Assert.Equal(1.21, Supply.ForceRatio(110, 100), 12);
        Assert.Equal(0.694444444, Supply.ForceRatioAtFrequency(50, 60), 9);
        Assert.Equal(0.0599112426, Supply.NormaliseStroke(0.045, 104, 120), 10);
    }

    [Theory]
    [InlineData(0, 1)]
    [InlineData(60, 0.8969386214)]
    [InlineData(90, 0.7071067812)]
    [InlineData(120, 0.442155074)]
    [InlineData(180, 0)]
    public void Phase_control_takes_from_the_voltage(double degrees, double relative) =>
        Assert.Equal(relative, Supply.PhaseControlRms(degrees * Math.PI / 180), 7);

    [Fact]
    public void Clearance_is_what_stroke_and_sag_leave_of_the_gap()
    {
        var relative = TwoMass.RelativeAmplitude(0.75e-3, 12, 30);
        Assert.Equal(1.05e-3, relative, 12);
        Assert.Equal(0.727777778e-3, AirGap.Clearance(2e-3, relative, 300, 1.35e6), 12);
        var softened = 1.35e6 + Attraction.Stiffness(300, 2e-3);
        Assert.Equal(55.7042301, TwoMass.NaturalFrequencyHz(softened, 12, 30), 6);
    }
}
