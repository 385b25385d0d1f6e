using StrokeWatch.Sensors.Chips;
using StrokeWatch.Sensors.Simulated;
using Xunit;

namespace StrokeWatch.Tests.Sensors.Chips;

/// <summary>The range that a stroke asks for, held to the table of sine vibration in the notes on mounting (0.0020128 f² D in g, NASA Goddard FEMCI).</summary>
public sealed class RangeAdviceTests
{
    [Theory]
    [InlineData(1.90, 50, 9.56)]
    [InlineData(1.90, 60, 13.77)]
    [InlineData(1.524, 60, 11.04)]
    [InlineData(0.508, 120, 14.72)]
    public void The_peak_of_a_stroke_is_that_of_the_table(double millimetres, double hz, double g) =>
        Assert.Equal(g, RangeAdvice.For(millimetres / 1000, hz).StrokePeakG, 0.006);

    [Theory]
    [InlineData(50, 40, RangeVerdict.Suits)]
    [InlineData(50, 20, RangeVerdict.Narrow)]
    [InlineData(50, 10, RangeVerdict.Clips)]
    [InlineData(60, 40, RangeVerdict.Suits)]
    [InlineData(60, 32, RangeVerdict.Narrow)]
    [InlineData(60, 16, RangeVerdict.Clips)]
    public void Full_scale_must_be_twice_the_expected_peak(double hz, double fullScale, RangeVerdict verdict) =>
        Assert.Equal(verdict, RangeAdvice.For(1.9e-3, hz).Judge(fullScale));

    [Fact]
    public void The_words_hold_the_numbers_and_what_to_take()
    {
        var advice = RangeAdvice.For(DemoScenario.Feeder);
        Assert.Equal("20 g: the over-stroke limit is 9.6 g, with harmonics and gravity 12.5 g, so 24.9 g of full scale are wanted: it works, but a strike will clip; better ADXL357 at 40 g or KX134 at 32 g", advice.Words(20));
        Assert.Contains("it suits", advice.Words(40), StringComparison.Ordinal);
        Assert.Contains("it would clip and read low; take ADXL357 at 40 g", advice.Words(8), StringComparison.Ordinal);
        Assert.Equal("no chip with a driver here; a sensor of 134 g", RangeAdvice.For(1.9e-3, 120).Suiting());
    }
}
