using StrokeWatch.Machine.Springs;
using Xunit;

namespace StrokeWatch.Tests.Machine.Springs;

// Source of the numbers: shared check-values 7.6, computed there by Shigley's factors.
public sealed class FatigueScreenTests
{
    [Fact]
    public void A_ground_steel_leaf_endures_as_computed()
    {
        Assert.Equal(0.853564224, FatigueScreen.Surface(1400e6), 8);
        Assert.Equal(9.89593856e-3, FatigueScreen.EquivalentDiameter(50e-3, 3e-3), 9);
        Assert.Equal(0.970303923, FatigueScreen.Size(9.89593856e-3), 8);
        var endurance = FatigueScreen.Endurance(1400e6, 50e-3, 3e-3);
        Assert.Equal(579.7517, endurance / 1e6, 3);
        Assert.Equal(471.917884, FatigueScreen.Reliable99 * endurance / 1e6, 3);
        Assert.Equal(4.00044862, FatigueScreen.GoodmanFactor(62.1e6, 200e6, endurance, 1400e6), 1e-6);
        Assert.Equal(1, FatigueScreen.Endurance(2000e6, 50e-3, 3e-3) / FatigueScreen.Surface(2000e6) * FatigueScreen.Surface(1400e6) / endurance, 1e-12);
    }
}
