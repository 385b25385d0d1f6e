using StrokeWatch.Benchmarks;
using StrokeWatch.Samples.Quantities;
using Xunit;

namespace StrokeWatch.Tests.Measurement.Quality;

/// <summary>What a cut takes off that nobody can tell without the range: such windows give no stroke, or carry it in their uncertainty. Against waveforms whose truth is known (seeded, the benchmark's own).</summary>
public sealed class HiddenCutTests
{
    [Theory]
    [InlineData(0.5)]
    [InlineData(0.6)]
    [InlineData(0.7)]
    public void A_deep_cut_of_a_waveform_of_strong_high_orders_never_counts_where_the_range_is_unknown(double level)
    {
        foreach (var oneSided in (bool[])[false, true])
        {
            foreach (var wave in (Clipping.Wave[])[Clipping.Fifth, Clipping.SlightEighth, Clipping.Eighth])
            {
                var cut = Clipping.Study(wave, new(level, oneSided), 100, 2);
                Assert.Equal(cut.Windows, cut.Called + cut.Undecided);
            }
        }
    }

    [Theory]
    [InlineData(0.9)]
    [InlineData(0.95)]
    [InlineData(0.97)]
    public void A_cut_too_shallow_to_be_told_is_within_the_uncertainty_where_the_range_is_unknown(double level)
    {
        foreach (var oneSided in (bool[])[false, true])
        {
            foreach (var wave in (Clipping.Wave[])[Clipping.Sine, Clipping.Third, Clipping.SlightEighth, Clipping.Eighth])
            {
                var cut = Clipping.Study(wave, new(level, oneSided), 100, 2);
                Assert.InRange(cut.Outside, 0, 2);
                Assert.True(cut.Counting == 0 || cut.MeanHidden > 0);
            }
        }
    }

    /// <summary>k = 2 may miss one in twenty: over all cuts that nobody can tell.</summary>
    [Fact]
    public void So_is_one_of_a_waveform_of_strong_high_orders_whose_narrow_tops_lose_more()
    {
        foreach (var wave in (Clipping.Wave[])[Clipping.Fifth, Clipping.Twelfth])
        {
            int counting = 0, outside = 0;
            foreach (var (level, oneSided) in ((double, bool)[])[(0.8, false), (0.8, true), (0.9, false), (0.9, true), (0.95, false), (0.95, true), (0.97, false), (0.97, true)])
            {
                var cut = Clipping.Study(wave, new(level, oneSided), 100, 2);
                (counting, outside) = (counting + cut.Counting, outside + cut.Outside);
            }

            Assert.True(counting > 200 && outside <= 0.06 * counting, $"{wave.Name}: {outside} of {counting} outside");
        }
    }

    [Fact]
    public void What_a_hidden_cut_may_take_off_vanishes_with_the_noise_and_is_not_carried_where_the_range_is_stated()
    {
        Func<double, double> sine = Math.Sin;
        double Hidden(double noise, double? range) => StrokeMeterTests.Measure(BlurredRailTests.Wave(noise, 12, sine), BlurredRailTests.Settings(range), 3).Max(window => window.HiddenCut);

        Assert.Equal(0, Hidden(1e-3, null));
        Assert.InRange(Hidden(0.02, null), 2e-3, 0.02);
        Assert.Equal(0, Hidden(0.02, 32 * Gravity.Standard));
    }
}
