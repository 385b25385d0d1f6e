using StrokeWatch.Assessment.Reports;
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
}
