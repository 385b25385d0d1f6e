using StrokeWatch.Machine.Dynamics;
using Xunit;

namespace StrokeWatch.Tests.Machine.Dynamics;

// Source of the numbers: shared check-values 6.6 and 6.11.
public sealed class DecayTests
{
    [Fact]
    public void A_quarter_left_after_ten_cycles_tells_the_damping()
    {
        var decrement = Decay.LogDecrement(1, 0.25, 10);
        Assert.Equal(0.13862943611, decrement, 10);
        Assert.Equal(0.022058191697, Decay.DampingRatio(decrement), 11);
        Assert.Equal(decrement, Decay.LogDecrement(Decay.DampingRatio(decrement)), 12);
    }

    [Fact]
    public void A_start_settles_in_five_time_constants()
    {
        Assert.Equal(0.1263134469, Decay.TimeConstant(63, 0.02), 9);
        Assert.Equal(0.6316, Decay.SettleTime(63, 0.02), 4);
        Assert.Equal(2.98739874, Decay.BeatHz(60, 63, 0.02), 7);
    }
}
