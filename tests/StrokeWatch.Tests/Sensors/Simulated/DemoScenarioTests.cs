using StrokeWatch.Sensors.Simulated;
using Xunit;

namespace StrokeWatch.Tests.Sensors.Simulated;

public sealed class DemoScenarioTests
{
    [Fact]
    public void It_is_healthy_then_drifts_to_over_stroke_then_strikes()
    {
        var run = Runs.Of(DemoScenario.Create(3, 5, 2, 14));
        var band = DemoScenario.Feeder.Band;
        Assert.InRange(run.Truth.Stroke!.Lowest.Metres, band.Low.Metres, band.High.Metres);
        Assert.True(run.Truth.Stroke!.Highest.Metres > band.Limit.Metres);
        Assert.InRange(run.Truth.Strikes.FirstSeconds!.Value, 10, 10.1);
        Assert.Equal(0, run.Truth.ClippedSamples);
        var healthy = Runs.Of(DemoScenario.Create(3, 5, 2, 3));
        Assert.Equal("in-band", healthy.Truth.Verdict);
        Assert.Equal(0, healthy.Truth.Strikes.Contacts);
    }

    [Fact]
    public void It_fits_into_two_minutes()
    {
        var demo = DemoScenario.Create();
        Assert.True(demo.DurationSeconds <= 120);
        Assert.True(demo.Strike!.FromSeconds < 90);
    }
}
