using StrokeWatch.Machine.Conveying;
using Xunit;

namespace StrokeWatch.Tests.Machine.Conveying;

// Source of the numbers: shared check-values 8.1 to 8.5 (computed there; the flight solved directly as well).
public sealed class ThrowTests
{
    private const double Degree = Math.PI / 180;

    [Theory]
    [InlineData(0.25, 1.0805702562)]
    [InlineData(0.5, 1.3684611192)]
    [InlineData(0.65, 1.704158838)]
    [InlineData(0.75, 2.0317916791)]
    [InlineData(0.8, 2.2341082085)]
    [InlineData(0.9, 2.7210355344)]
    [InlineData(1, 3.2969083095)]
    public void A_longer_flight_needs_a_larger_throw_number(double flight, double number)
    {
        Assert.Equal(number, Throw.NumberFor(flight), 1e-9);
        Assert.Equal(flight, Throw.FlightRatio(number)!.Value, 8);
    }

    [Theory]
    [InlineData(1.1, 0.27711276513)]
    [InlineData(1.5, 0.56758102182)]
    [InlineData(2, 0.74147924149)]
    [InlineData(2.5, 0.85730982399)]
    [InlineData(3, 0.94977431288)]
    public void A_throw_number_tells_the_flight(double number, double flight) => Assert.Equal(flight, Throw.FlightRatio(number)!.Value, 10);

    [Fact]
    public void Material_takes_off_where_the_deck_falls_away_faster_than_it() => Assert.Equal(30 * Degree, Throw.TakeOff(2)!.Value, 12);

    [Theory]
    [InlineData(50, 1.8, 20, 9.057776061, 3.097941867, 0.9665423112, 0.2517077272)]
    [InlineData(60, 1.0, 20, 7.246220849, 2.478353493, 0.8529201245, 0.1633391475)]
    [InlineData(50, 1.5, 25, 7.548146718, 3.189984645, 0.9820924502, 0.2028396594)]
    [InlineData(30, 5.0, 20, 9.057776061, 3.097941867, 0.9665423112, 0.4195128786)]
    public void The_ideal_speed_is_as_computed(double hertz, double strokeMillimetres, double degrees, double machine, double number, double flight, double speed)
    {
        Assert.Equal(flight, Throw.FlightRatio(Throw.Number(strokeMillimetres / 1e3, hertz, degrees * Degree))!.Value, 8);
        Assert.Equal(machine, Throw.MachineNumber(strokeMillimetres / 1e3, hertz), 1e-8);
        Assert.Equal(number, Throw.Number(strokeMillimetres / 1e3, hertz, degrees * Degree), 1e-8);
        Assert.Equal(speed, Throw.Speed(strokeMillimetres / 1e3, hertz, degrees * Degree)!.Value, 9);
    }

    [Fact]
    public void Beyond_one_hop_a_period_no_speed_is_told()
    {
        Assert.Equal(3.777010724, Throw.Number(1.524e-3, 60, 20 * Degree), 8);
        Assert.Null(Throw.Speed(1.524e-3, 60, 20 * Degree));
        Assert.Null(Throw.FlightRatio(3.777));
        Assert.Equal(0.2245295786, Throw.Ceiling(60, 20 * Degree), 9);
        Assert.Null(Throw.Speed(0.1e-3, 60, 20 * Degree));
        Assert.Null(Throw.TakeOff(0.9));
    }

    [Fact]
    public void Sliding_begins_forward_before_it_begins_backward()
    {
        var (forward, back) = Throw.SlideOnset(0.4, 20 * Degree);
        Assert.Equal(0.3715743131, forward, 9);
        Assert.Equal(0.498203625, back, 9);
    }
}
