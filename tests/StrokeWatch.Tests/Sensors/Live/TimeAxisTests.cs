using Microsoft.Extensions.Time.Testing;
using StrokeWatch.Sensors.Live;
using Xunit;

namespace StrokeWatch.Tests.Sensors.Live;

public sealed class TimeAxisTests
{
    private readonly FakeTimeProvider time = new();

    [Fact]
    public void Time_is_samples_over_rate_however_they_arrive()
    {
        var axis = new TimeAxis(time);
        for (var i = 0; i < 1000; i++)
        {
            axis.Arrive(0, 32, 4000);
            Assert.Equal(i * 32 / 4000.0, axis.Next, 12);
            axis.Advance(32);
            time.Advance(TimeSpan.FromMilliseconds(i % 40));
        }
    }

    [Fact]
    public void A_gap_of_known_length_counts_its_samples()
    {
        var axis = new TimeAxis(time);
        axis.Arrive(0, 32, 4000);
        axis.Advance(32);
        axis.Arrive(4000, 32, 4000);
        Assert.Equal(1.008, axis.Next, 12);
    }

    [Fact]
    public void A_gap_of_unknown_length_is_as_long_as_the_host_waited()
    {
        var axis = new TimeAxis(time);
        axis.Arrive(0, 400, 4000);
        axis.Advance(400);
        time.Advance(TimeSpan.FromSeconds(7.5));
        Assert.Equal(7.6, axis.Now, 9);
        axis.Arrive(null, 400, 4000);
        Assert.Equal(7.5, axis.Next, 9);
    }

    [Fact]
    public void A_change_of_rate_does_not_move_what_was()
    {
        var axis = new TimeAxis(time);
        axis.Arrive(0, 4000, 4000);
        axis.Advance(4000);
        axis.Arrive(100, 1000, 1000);
        Assert.Equal(1.1, axis.Next, 12);
        axis.Advance(1000);
        Assert.Equal(2.1, axis.Next, 12);
    }

    [Fact]
    public void Without_a_rate_the_host_tells_the_time()
    {
        var axis = new TimeAxis(time);
        axis.Arrive(0, 10, null);
        Assert.Equal(0, axis.Next);
        axis.Advance(10);
        time.Advance(TimeSpan.FromSeconds(10));
        axis.Arrive(0, 10, null);
        Assert.Equal(10, axis.Next, 9);
        axis.Advance(10);
        time.Advance(TimeSpan.FromSeconds(1));
        axis.Arrive(0, 10, 10);
        Assert.Equal(10, axis.Next, 9);
    }
}
