using StrokeWatch.Assessment.Diagnosis;
using StrokeWatch.Assessment.Reports;
using Xunit;

namespace StrokeWatch.Tests.Assessment.Diagnosis;

/// <summary>A strike's score as a symptom: what is below half the threshold says nothing, and is not written as if it did.</summary>
public sealed class StrikeSymptomTests
{
    private static readonly Symptom Strike = Symptoms.All.Single(symptom => symptom.Id == Symptoms.Strike);

    [Fact]
    public void A_healthy_machine_whose_score_goes_up_and_down_below_half_the_threshold_moves_nothing()
    {
        Assert.Equal(Of(0), Of(0.3));
        Assert.Equal(Of(0), Of(0.49));
        Assert.True(Of(0.5) - Of(0.49) > 3 * Strike.Spread, $"{Of(0.5)} after {Of(0.49)}");
        Assert.True(Of(2.4) > Of(1));
        Assert.Null(Strike.Of(new CaptureFeatures()));
    }

    [Fact]
    public void It_is_written_as_far_as_it_says_anything()
    {
        Assert.Equal("from below 0.5 to 2.4", Strike.Show(Of(0.3), Of(2.4)));
        Assert.Equal("from 1.2 to below 0.5", Strike.Show(Of(1.2), Of(0)));
    }

    /// <summary>The last two captures show the machine as it is now: of a strike heard in the last alone their mean lies below half the threshold, and was written as if nothing had been heard.</summary>
    [Fact]
    public void A_strike_heard_in_the_newest_capture_alone_is_written_as_heard()
    {
        static CaptureFeatures Capture(double score) => new() { StrikeScoreMedian = score };
        var evidence = Evidence.Of([Capture(0.1), Capture(0.2), Capture(0.1)], [Capture(0.1), Capture(1.2)]);
        Assert.EndsWith(": from below 0.5 to 1.2.", evidence[Symptoms.Strike]!.Sentence(), StringComparison.Ordinal);
        Assert.True(evidence[Symptoms.Strike]!.Now < Of(0.5));
    }

    private static double Of(double score) => Strike.Of(new CaptureFeatures { StrikeScoreMedian = score })!.Value;
}
