using StrokeWatch.Assessment.Reports;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Samples.Quantities;
using Xunit;

namespace StrokeWatch.Tests.Assessment;

public sealed class StrikeCountTests
{
    [Theory]
    [InlineData(0, 10, false)]
    [InlineData(1, 10, false)]
    [InlineData(2, 10, true)]
    [InlineData(2, 100, false)]
    [InlineData(9, 172800, false)]
    [InlineData(40, 172800, true)]
    public void Scattered_calls_count_where_chance_does_not_explain_them(int called, int judged, bool beyond) =>
        Assert.Equal(beyond, StrikeCount.BeyondChance(called, judged));

    /// <summary>Two scattered calls in ten windows are beyond chance; one, carried over a window that could not be judged, is still one.</summary>
    [Theory]
    [InlineData(false, true)]
    [InlineData(true, false)]
    public void A_call_that_is_carried_on_is_none_of_its_own(bool carried, bool found)
    {
        var builder = new ReportBuilder(new()
        {
            Name = "Sand feeder",
            Drive = new(50, 1, Free: false),
            Band = new(Length.FromMillimetres(1.65), Length.FromMillimetres(1.78), Length.FromMillimetres(1.9)),
        });
        for (var i = 0; i < 11; i++)
        {
            builder.Add(new AssessedWindow(
                new()
                {
                    StartSeconds = 0.5 * i,
                    LengthSeconds = 0.5,
                    Quality = WindowQuality.Good,
                    Motion = MotionState.Running,
                    Strike = i is 3 or 5,
                    StrikeCarried = i == 5 && carried,
                    StrikeScore = i == 4 ? null : i is 3 or 5 ? 1.2 : 0,
                },
                Verdict.InBand));
        }

        var strike = builder.Build(0.01).Strike;
        Assert.Equal((found, 2, 10), (strike.Found, strike.Windows, strike.Judged));
    }
}
