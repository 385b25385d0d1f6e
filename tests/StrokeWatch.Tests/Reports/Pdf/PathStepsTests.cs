using StrokeWatch.Reports.Pdf;
using Xunit;

namespace StrokeWatch.Tests.Reports.Pdf;

public sealed class PathStepsTests
{
    [Fact]
    public void A_path_is_read_as_the_lines_that_its_letters_draw()
    {
        var pieces = PathSteps.Read("M0 -6L6 5H-6.25ZM1.5 2V-3");
        Assert.Equal(2, pieces.Count);
        Assert.True(pieces[0].Closed);
        Assert.Equal([(0, -6), (6, 5), (-6.25, 5)], pieces[0].Points);
        Assert.False(pieces[1].Closed);
        Assert.Equal([(1.5, 2), (1.5, -3)], pieces[1].Points);
    }

    [Theory]
    [InlineData("M0 0C1 1 2 2 3 3")]
    [InlineData("M0")]
    [InlineData("M0 0L1 x")]
    public void What_is_not_understood_is_refused(string steps) => Assert.Throws<ArgumentException>(() => PathSteps.Read(steps));
}
