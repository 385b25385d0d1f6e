using StrokeWatch.Reports.Html;
using Xunit;

namespace StrokeWatch.Tests.Reports.Html;

public sealed class TicksTests
{
    [Fact]
    public void Steps_are_one_two_or_five_times_a_power_of_ten_and_never_too_many_ticks()
    {
        var random = new Random(4);
        for (var i = 0; i < 2_000; i++)
        {
            var span = Math.Pow(10, 12 * random.NextDouble() - 6);
            var from = span * (20 * random.NextDouble() - 10);
            var most = random.Next(2, 12);
            var step = Ticks.Step(span, most);
            var mantissa = step / Math.Pow(10, Math.Floor(Math.Log10(step) + 1e-9));
            Assert.Contains((int)Math.Round(mantissa), (int[])[1, 2, 5]);
            Assert.Equal(Math.Round(mantissa), mantissa, 9);
            var ticks = Ticks.Between(from, from + span, step).ToList();
            Assert.InRange(ticks.Count, most / 2.5 - 1, most + 1);
            Assert.All(ticks, tick => Assert.InRange(tick, from - 1e-6 * span, from + span + 1e-6 * span));
            Assert.All(ticks, tick => Assert.Equal(tick, Pages.Number(Figure.Of(tick, Ticks.Digits(step))), 1e-6 * step));
        }
    }

    [Theory]
    [InlineData(-0.0004, 3, "0.000")]
    [InlineData(-1.5, 2, "\u22121.50")]
    [InlineData(1234.5678, 1, "1234.6")]
    public void Numbers_have_a_true_minus_and_no_negative_zero(double value, int digits, string text) => Assert.Equal(text, Figure.Of(value, digits));

    [Fact]
    public void An_uncertainty_is_never_rounded_down() => Assert.Equal("0.035 mm (0.0014 in)", Figure.BothUp(34.1e-6));
}
