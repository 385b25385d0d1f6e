using StrokeWatch.Samples.Quantities;
using Xunit;

namespace StrokeWatch.Tests.Samples;

public sealed class CountedTests
{
    [Theory]
    [InlineData(0, "0 windows")]
    [InlineData(1, "1 window")]
    [InlineData(2, "2 windows")]
    [InlineData(12345678901, "12345678901 windows")]
    public void A_count_takes_its_noun_with_it(long count, string words) => Assert.Equal(words, Counted.Of(count, "window"));
}
