using StrokeWatch.Machine.Dynamics;
using Xunit;

namespace StrokeWatch.Tests.Machine.Dynamics;

// Source of the numbers: shared check-values 6.1, 6.4, 6.5 (computed there from the textbook relations).
public sealed class TwoMassTests
{
    private const double Tray = 12, Body = 30, Stiffness = 1.35e6;

    [Fact]
    public void Two_masses_on_a_spring_swing_as_computed()
    {
        Assert.Equal(8.5714285714, TwoMass.ReducedMass(Tray, Body), 9);
        Assert.Equal(63.1626599022, TwoMass.NaturalFrequencyHz(Stiffness, Tray, Body), 9);
        Assert.Equal(2.5, TwoMass.AmplitudeRatio(Tray, Body), 12);
        Assert.Equal(0.7142857143, TwoMass.TrayShare(Tray, Body), 9);
        Assert.Equal(1343055.7669, TwoMass.StiffnessFor(63, Tray, Body), 3);
    }

    [Theory]
    [InlineData(0, 63.1626599, 6.81770135)]
    [InlineData(0.3, 62.6100451, 7.86375801)]
    [InlineData(0.6, 62.079172, 9.22111137)]
    [InlineData(1.2, 61.0775062, 13.2015868)]
    public void Load_brings_a_tray_tuned_above_its_drive_nearer_to_resonance(double load, double naturalHz, double response)
    {
        Assert.Equal(naturalHz, TwoMass.NaturalFrequencyHz(Stiffness, Tray + load, Body), 6);
        Assert.Equal(response, TwoMass.TrayAmplitude(1, 60, Stiffness, 0.02, Tray + load, Body) * Stiffness, 7);
    }

    [Theory]
    [InlineData(0, 57, 6.16037511)]
    [InlineData(0.6, 56.0222259, 4.59791763)]
    public void Load_takes_stroke_from_a_tray_tuned_below_its_drive(double load, double naturalHz, double response)
    {
        var stiffness = TwoMass.StiffnessFor(57, Tray, Body);
        Assert.Equal(naturalHz, TwoMass.NaturalFrequencyHz(stiffness, Tray + load, Body), 6);
        Assert.Equal(response, TwoMass.TrayAmplitude(1, 60, stiffness, 0.02, Tray + load, Body) * stiffness, 7);
    }

    [Fact]
    public void Five_per_cent_more_tray_lowers_the_frequency_as_the_sensitivity_says()
    {
        Assert.Equal(-0.017857143, TwoMass.FrequencySensitivity(0, 0.05, Tray, Body), 8);
        var exact = (TwoMass.NaturalFrequencyHz(Stiffness, Tray * 1.05, Body) / TwoMass.NaturalFrequencyHz(Stiffness, Tray, Body)) - 1;
        Assert.Equal(-0.0171539314, exact, 9);
    }
}
