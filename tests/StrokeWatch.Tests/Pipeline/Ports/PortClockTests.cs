using StrokeWatch.Pipeline.Ports;
using Xunit;

namespace StrokeWatch.Tests.Pipeline.Ports;

public sealed class PortClockTests
{
    [Theory]
    [InlineData(0.01)]
    [InlineData(-0.01)]
    [InlineData(0)]
    public void A_clock_that_is_off_and_samples_that_come_late_by_chance_are_followed_within_the_least_delay(double error)
    {
        var random = new Random(5);
        var clock = new PortClock();
        for (var host = 0.0; host < 3600; host += 0.05)
        {
            var device = host * (1 + error);
            clock.Note(device, host + 0.004 + 0.2 * Math.Pow(random.NextDouble(), 6));
            Assert.InRange(clock.Host(device) - host, 0.003, 0.03);
        }
    }

    [Fact]
    public void A_jump_of_the_devices_time_is_followed_at_once()
    {
        var clock = new PortClock();
        clock.Note(100, 20);
        clock.Note(0.5, 30);
        Assert.Equal(30, clock.Host(0.5), 9);
    }
}
