using StrokeWatch.Assessment.Reports;
using StrokeWatch.Reports;
using StrokeWatch.Reports.Html;
using Xunit;

namespace StrokeWatch.Tests.Reports;

/// <summary>What is said of strike never says more than was heard.</summary>
public sealed class StrikeWordsTests
{
    [Fact]
    public void What_was_not_heard_and_cannot_be_ruled_out_is_said_to_be_open()
    {
        StrikeSummary Of(int possible) => new(false, null, 0, 0.62, null, 40, possible);

        Assert.False(Of(4).Open);
        Assert.True(Of(5).Open);
        Assert.Equal("None heard (largest score 0.62; 1 is the threshold)", ReportWords.Of(Of(4)));
        Assert.Equal(
            "None heard, but one cannot be ruled out in 12 of 40 windows; a higher sampling rate tells more (largest score 0.62; 1 is the threshold)",
            ReportWords.Of(Of(12)));
        Assert.Equal("one cannot be ruled out in 12 of 40 windows; a higher sampling rate tells more", ReplayText.Open(Of(12)));
        Assert.Equal(
            "Heard in 1 of 10 windows, as chance alone may do, but one cannot be ruled out in 9 of 10 windows; a higher sampling rate tells more (largest score 1.10; 1 is the threshold)",
            ReportWords.Of(new StrikeSummary(false, null, 1, 1.1, null, 10, 9)));
        Assert.StartsWith("Strike heard", ReportWords.Of(new StrikeSummary(true, 1, 3, 2, 1, 40, 30)), StringComparison.Ordinal);
        Assert.Equal("Could not be judged", ReportWords.Of(new StrikeSummary(false, null, 0, null, null, 0, 0)));
    }
}
