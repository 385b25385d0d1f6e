using Microsoft.Extensions.Time.Testing;
using StrokeWatch.Sensors.Live;
using Xunit;

namespace StrokeWatch.Tests.Sensors.Live;

public sealed class BackOffTests
{
    private readonly FakeTimeProvider time = new();

    [Fact]
    public void The_first_try_is_due_at_once() => Assert.Equal(TimeSpan.Zero, new BackOff(time).Remaining);

    [Fact]
    public void Waits_grow_from_a_half_to_five_seconds_and_stay_there()
    {
        var backOff = new BackOff(time);
        foreach (var seconds in new[] { 0.5, 1, 2, 5, 5, 5 })
        {
            backOff.Failed();
            Assert.Equal(TimeSpan.FromSeconds(seconds), backOff.Remaining);
            time.Advance(TimeSpan.FromSeconds(seconds) - TimeSpan.FromMilliseconds(1));
            Assert.Equal(TimeSpan.FromMilliseconds(1), backOff.Remaining);
            time.Advance(TimeSpan.FromMilliseconds(2));
            Assert.Equal(TimeSpan.Zero, backOff.Remaining);
        }
    }

    [Fact]
    public void Success_begins_anew_with_the_shortest_wait()
    {
        var backOff = new BackOff(time);
        backOff.Failed();
        backOff.Failed();
        backOff.Succeeded();
        Assert.Equal(TimeSpan.Zero, backOff.Remaining);
        backOff.Failed();
        Assert.Equal(TimeSpan.FromSeconds(0.5), backOff.Remaining);
    }
}
