using StrokeWatch.Machine.Springs;
using Xunit;

namespace StrokeWatch.Tests.Machine.Springs;

// Source of the numbers: shared check-values 7.1 to 7.5 and 6.5 (guided leaf).
public sealed class LeafSpringTests
{
    [Fact]
    public void A_steel_leaf_is_as_stiff_and_as_stressed_as_computed()
    {
        Assert.Equal(1.125, LeafSpring.SecondMoment(0.05, 0.003) * 1e10, 9);
        Assert.Equal(82800, LeafSpring.Stiffness(207e9, 0.05, 0.003, 0.15), 6);
        Assert.Equal(4.6575, LeafSpring.ClampMoment(207e9, 0.05, 0.003, 0.15, 0.75e-3), 9);
        Assert.Equal(62.1e6, LeafSpring.Stress(207e9, 0.003, 0.15, 0.75e-3), 3);
        Assert.Equal(703.798526, LeafSpring.OwnFrequencyHz(207e9, 0.003, 0.15, 7850), 5);
    }

    [Fact]
    public void An_inch_leaf_and_a_glass_fibre_leaf_agree_too()
    {
        // 542.534722222 lb/in, one pound-force being 4.4482216152605 N (exact) and one psi 6894.757293168361 Pa.
        var newtonsPerMetre = LeafSpring.Stiffness(30e6 * 6894.757293168361, 2 * 0.0254, 0.0254 / 8, 6 * 0.0254);
        Assert.Equal(542.534722222, newtonsPerMetre * 0.0254 / 4.4482216152605, 6);
        Assert.Equal(113014.40329, LeafSpring.Stiffness(40e9, 0.06, 0.0065, 0.18), 4);
        Assert.Equal(18.05555556e6, LeafSpring.Stress(40e9, 0.0065, 0.18, 0.75e-3), 1);
    }

    [Fact]
    public void Stiffness_goes_with_the_cube_of_the_thickness() =>
        Assert.Equal(2.744, LeafSpring.Stiffness(1, 1, 3.5, 100) / LeafSpring.Stiffness(1, 1, 2.5, 100), 9);

    [Theory]
    [InlineData(6, 0.9128709292)]
    [InlineData(8, 0.9354143467)]
    [InlineData(16, 0.9682458366)]
    public void A_lost_leaf_lowers_the_frequency(int leaves, double factor) =>
        Assert.Equal(factor, LeafSpring.FrequencyFactorOneLost(leaves), 9);
}
