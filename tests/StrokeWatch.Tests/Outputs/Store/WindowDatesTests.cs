using StrokeWatch.Outputs.Store;
using Xunit;

namespace StrokeWatch.Tests.Outputs.Store;

/// <summary>Windows are dated in the order in which they were measured.</summary>
public sealed class WindowDatesTests
{
    private static readonly DateTimeOffset Noon = new(2026, 3, 29, 12, 0, 0, TimeSpan.Zero);
    private readonly WindowDates dates = new();

    [Fact]
    public void A_window_is_dated_by_its_beginning()
    {
        Assert.Equal(Noon.AddSeconds(-0.5), dates.Begin(Noon, 0.5));
        Assert.Equal(Noon, dates.Begin(Noon.AddSeconds(0.5), 0.5));
        Assert.Equal(Noon.AddSeconds(1), dates.Begin(Noon.AddSeconds(1), double.NaN));
    }

    [Fact]
    public void Windows_that_come_at_once_keep_their_order_though_one_of_them_is_longer()
    {
        DateTimeOffset[] begins = [dates.Begin(Noon, 0.5), dates.Begin(Noon, 0.5), dates.Begin(Noon, 1.5), dates.Begin(Noon.AddMilliseconds(1), 0.5), dates.Begin(Noon.AddSeconds(0.5), 0.5)];

        Assert.Equal(begins.Order(), begins);
        Assert.Equal(begins.Distinct(), begins);
        Assert.Equal(Noon, begins[^1]);
    }

    [Fact]
    public void A_clock_that_is_set_back_is_followed()
    {
        _ = dates.Begin(Noon, 0.5);

        Assert.Equal(Noon.AddHours(-1), dates.Begin(Noon.AddHours(-1).AddSeconds(0.5), 0.5));
    }
}
