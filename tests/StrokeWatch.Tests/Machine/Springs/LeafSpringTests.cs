using StrokeWatch.Machine.Dynamics;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Machine.Springs;
using Xunit;

namespace StrokeWatch.Tests.Machine.Springs;

// Source of the numbers: shared check-values 7.1 to 7.5 and 6.5 (guided leaf).
public sealed class LeafSpringTests
{
    /// <summary>A guided leaf of twice the length is two cantilevers end to end, in series; its first mode is that of a leaf of the length itself with one end guided.</summary>
    [Fact]
    public void Other_ends_follow_from_a_leaf_of_twice_the_length()
    {
        Assert.Equal(20700, 2 * LeafSpring.Stiffness(207e9, 0.05, 0.003, 0.3), 6);
        var square = LeafSpring.OwnFrequencyHz(207e9, 0.003, 0.3, 7850) / LeafSpring.OwnFrequencyHz(207e9, 0.003, 0.15, 7850);
        Assert.Equal(2.365020372431, LeafSpring.BetaL(LeafEnds.Clamped) * Math.Sqrt(square), 11);
    }

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
    public void A_leaf_moves_with_the_mass_and_the_mode_that_its_shape_gives()
    {
        // Simpson's rule over the square of the guided shape 3s² − 2s³; Euler's beam clamped at both ends: cos βL cosh βL = 1.
        const int steps = 1000;
        var sum = 0.0;
        for (var n = 0; n <= steps; n++)
        {
            var s = (double)n / steps;
            sum += (n is 0 or steps ? 1 : n % 2 == 1 ? 4 : 2) * Math.Pow((3 * s * s) - (2 * s * s * s), 2);
        }

        Assert.Equal(LeafSpring.EffectiveMassShare, sum / (3 * steps), 10);
        Assert.Equal(0.37142857143, LeafSpring.EffectiveMassShare, 10);
    }

    // Check-values 7.5, and the frequency equations of Euler's beam.
    [Fact]
    public void A_leaf_rings_as_its_ends_are_held()
    {
        var (clamped, guided, free) = (LeafSpring.BetaL(LeafEnds.Clamped), LeafSpring.BetaL(LeafEnds.Guided), LeafSpring.BetaL(LeafEnds.Free));
        Assert.Equal(4.730040744863, clamped, 12);
        Assert.Equal(2.365020372431, guided, 12);
        Assert.Equal(1.875104068712, free, 12);
        Assert.Equal(1, Math.Cos(clamped) * Math.Cosh(clamped), 9);
        Assert.Equal(0, Math.Tan(guided) + Math.Tanh(guided), 12);
        Assert.Equal(-1, Math.Cos(free) * Math.Cosh(free), 12);
        Assert.Equal(703.798526 * Math.Pow(1.875104068712 / 4.730040744863, 2), LeafSpring.OwnFrequencyHz(207e9, 0.003, 0.15, 7850, LeafEnds.Free), 5);
        Assert.Equal(703.798526 / 4, LeafSpring.OwnFrequencyHz(207e9, 0.003, 0.15, 7850, LeafEnds.Guided), 5);
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
    public void Sixteen_leaves_are_sixteen_times_as_stiff_and_each_takes_its_force()
    {
        Assert.Equal(1324800, Stack(16).Stiffness(), 5);
        Assert.Equal(62.1, Stack(16).Stiffness() * 0.75e-3 / 16, 9);
        Assert.Equal(62.1, 2 * LeafSpring.ClampMoment(207e9, 0.05, 0.003, 0.15, 0.75e-3) / 0.15, 9);
    }

    [Theory]
    [InlineData(3.5, 2.744)]
    [InlineData(3.0, 1.728)]
    public void Stiffness_goes_with_the_cube_of_the_thickness(double thickness, double ratio) =>
        Assert.Equal(ratio, LeafSpring.Stiffness(1, 1, thickness, 100) / LeafSpring.Stiffness(1, 1, 2.5, 100), 9);

    [Fact]
    public void One_leaf_more_on_sixteen_is_a_big_step()
    {
        var kilograms = Stack(16).Stiffness() / Math.Pow(2 * Math.PI * 63, 2);
        var before = TwoMass.NaturalFrequencyHz(Stack(16).Stiffness(), kilograms);
        var after = TwoMass.NaturalFrequencyHz(Stack(17).Stiffness(), kilograms);
        Assert.Equal(63, before, 9);
        Assert.Equal(64.9389136, after, 7);
        Assert.Equal(1.0307764064, after / before, 9);
        Assert.Equal(9.952952, Resonance.Magnification(60 / before, 0.02), 6);
        Assert.Equal(6.626013, Resonance.Magnification(60 / after, 0.02), 6);
    }

    [Theory]
    [InlineData(6, 0.9128709292)]
    [InlineData(8, 0.9354143467)]
    [InlineData(10, 0.9486832981)]
    [InlineData(16, 0.9682458366)]
    public void A_lost_leaf_lowers_the_frequency(int leaves, double factor) =>
        Assert.Equal(factor, LeafSpring.FrequencyFactorOneLost(leaves), 9);

    // The leaf of 7.1: half of a stack in front, the other half behind.
    private static SpringDescription Stack(int leaves) => new()
    {
        Modulus = 207e9,
        WidthMetres = 0.05,
        LengthMetres = 0.15,
        Front = [new LeafLayer(0.003, 8)],
        Rear = [new LeafLayer(0.003, leaves - 8)],
    };
}
