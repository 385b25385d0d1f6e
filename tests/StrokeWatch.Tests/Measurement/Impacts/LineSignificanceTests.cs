using StrokeWatch.Measurement.Impacts;
using Xunit;

namespace StrokeWatch.Tests.Measurement.Impacts;

/// <summary>Is a line above the noise: shared check-values 9.4, and the distributions measured on seeded noise.</summary>
public sealed class LineSignificanceTests
{
    [Theory]
    [InlineData(0.01, 4.605170186)]
    [InlineData(0.001, 6.907755279)]
    [InlineData(1e-4, 9.210340372)]
    [InlineData(1e-6, 13.81551056)]
    public void One_line_in_known_noise_follows_the_exponential_law(double probability, double ratio)
    {
        Assert.Equal(ratio, LineSignificance.KnownNoiseThreshold(probability), 8);
        Assert.Equal(0.0487729537, 1 - Math.Pow(1 - 1e-4, 500), 9);
    }

    // Printed F tables say 3.49 and 5.85 for 2 and 20 degrees of freedom.
    [Theory]
    [InlineData(10, 0.05, 4.10282102)]
    [InlineData(10, 0.01, 7.55943216)]
    [InlineData(10, 0.001, 14.9053585)]
    [InlineData(20, 0.05, 3.49282848)]
    [InlineData(20, 0.01, 5.84893192)]
    [InlineData(20, 0.001, 9.95262315)]
    [InlineData(40, 0.05, 3.23172699)]
    [InlineData(40, 0.01, 5.17850824)]
    [InlineData(40, 0.001, 8.25075089)]
    public void One_line_in_estimated_noise_follows_Fishers_F(int freedom, double probability, double ratio)
    {
        Assert.Equal(ratio, LineSignificance.EstimatedNoiseThreshold(probability, freedom), 1e-7 * ratio);
        Assert.Equal(Math.Log10(probability), LineSignificance.LogFProbability(ratio, 2, freedom), 7);
    }

    [Theory]
    [InlineData(5, 0.68377223, 0.05)]
    [InlineData(5, 0.78852575, 0.01)]
    [InlineData(10, 0.44495256, 0.05)]
    [InlineData(10, 0.53584112, 0.01)]
    [InlineData(20, 0.27040422, 0.05)]
    [InlineData(20, 0.32971092, 0.01)]
    [InlineData(50, 0.13134727, 0.05)]
    [InlineData(50, 0.15953813, 0.01)]
    public void The_largest_of_many_lines_follows_Fishers_g(int lines, double share, double probability) =>
        Assert.Equal(probability, LineSignificance.FisherProbability(share, lines), 7);

    [Theory]
    [InlineData(1, 6.90775528)]
    [InlineData(4, 3.26556019)]
    [InlineData(8, 2.45327217)]
    [InlineData(16, 1.9527256)]
    [InlineData(32, 1.63619258)]
    public void Averaged_spectra_follow_chi_square(int spectra, double ratio) =>
        Assert.Equal(ratio, LineSignificance.AveragedThreshold(1e-3, spectra), 7);

    [Theory]
    [InlineData(13.18349, 1e-6, 0.9)]
    [InlineData(10.758621, 1e-3, 0.9)]
    [InlineData(8.0626044, 1e-3, 0.5)]
    [InlineData(13.279819, 1e-4, 0.99)]
    [InlineData(10, 1e-3, 0.810292374)]
    public void A_tone_is_heard_as_often_as_Marcums_Q_says(double decibels, double falseAlarm, double detection) =>
        Assert.Equal(detection, LineSignificance.DetectionProbability(Math.Pow(10, decibels / 10), falseAlarm), 6);

    [Fact]
    public void The_ratio_of_variances_has_the_distribution_that_is_used()
    {
        // 20,000 ratios of seeded normal noise with 8 and 40 degrees of freedom: 1 in 100 must be called at a probability of 0.01, within three standard deviations.
        var random = new Random(94);
        var called = 0;
        for (var run = 0; run < 20000; run++)
        {
            called += LineSignificance.LogFProbability(Squares(random, 8) / 8 / (Squares(random, 40) / 40), 8, 40) < -2 ? 1 : 0;
        }

        Assert.InRange(called, 158, 242);
    }

    private static double Squares(Random random, int count)
    {
        var sum = 0.0;
        for (var i = 0; i < count; i += 2)
        {
            // Two squared normal numbers together are exponential.
            sum -= 2 * Math.Log(1 - random.NextDouble());
        }

        return sum;
    }
}
