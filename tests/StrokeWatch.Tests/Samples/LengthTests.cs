using StrokeWatch.Samples.Quantities;
using Xunit;

namespace StrokeWatch.Tests.Samples;

public sealed class LengthTests
{
    [Theory]
    [InlineData("1.65 mm", 1.65e-3)]
    [InlineData("0.065 in", 0.065 * 0.0254)]
    [InlineData("65 mil", 0.065 * 0.0254)]
    [InlineData("  2mm ", 2e-3)]
    [InlineData("1e-1 in", 0.1 * 0.0254)]
    public void A_length_is_read_with_its_unit(string text, double metres)
    {
        Assert.True(Length.TryParse(text, out var length));
        Assert.Equal(metres, length.Metres, 15);
    }

    [Theory]
    [InlineData(null)]
    [InlineData("")]
    [InlineData("mm")]
    [InlineData("1.65")]
    [InlineData("1,65 mm")]
    [InlineData("1.65 cm")]
    [InlineData("NaN mm")]
    [InlineData("1.65 mm mm")]
    public void Anything_else_is_refused(string? text) => Assert.False(Length.TryParse(text, out _));

    [Fact]
    public void It_is_written_in_both_systems() => Assert.Equal("1.524 mm (0.0600 in)", Length.FromInches(0.06).ToString());
}
