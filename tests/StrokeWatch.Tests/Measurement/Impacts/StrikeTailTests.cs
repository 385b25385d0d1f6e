using StrokeWatch.Benchmarks.Strikes;
using StrokeWatch.Benchmarks.Strikes.Training;
using StrokeWatch.Measurement.Impacts;
using Xunit;

namespace StrokeWatch.Tests.Measurement.Impacts;

/// <summary>False-alarm tails fitted to sums of which the law is known: P(sum &gt; x) = exp(−x/3) for each window of a kind that has a tail.</summary>
public sealed class StrikeTailTests
{
    private const double Scale = 3, FalseAlarm = 1e-5;

    /// <summary>
    /// One of two kinds has a tail, so that P is half of the law's; of the other more or fewer windows were made, most of them never weighed, which must change nothing. From eighty windows the threshold is
    /// uncertain, and on the whole a little low: the mean of what it really lets through must stay within the half of the false-alarm probability that is left for that.
    /// </summary>
    [Theory]
    [InlineData(20_000)]
    [InlineData(400_000)]
    public void The_threshold_is_the_law_s_whatever_number_of_windows_each_kind_has(int others)
    {
        const int Windows = 40_000, Draws = 100;
        var through = 0.0;
        for (var draw = 0; draw < Draws; draw++)
        {
            var random = new Random(draw);
            List<(StudyKind Kind, int Rate, double Sum)> sums =
            [
                .. Enumerable.Range(0, Windows).Select(_ => (StudyKind.Rub, 1000, -Scale * Math.Log(1 - random.NextDouble()))),
                .. Enumerable.Range(0, others / 100).Select(_ => (StudyKind.Healthy, 1000, -50 * random.NextDouble())),
            ];
            sums.Sort((a, b) => b.Sum.CompareTo(a.Sum));
            var tail = new StrikeTail(sums, new Dictionary<StudyKind, int> { [StudyKind.Rub] = Windows, [StudyKind.Healthy] = others }, FalseAlarm);

            Assert.Equal(-3, tail.Log, 0.02);
            Assert.Equal(Law(tail.From), tail.Log, 0.2);
            Assert.Equal(1 / (Scale * Math.Log(10)), tail.Below, 0.02);
            Assert.Equal(Math.Log10(FalseAlarm), tail.Log - (tail.Above * (tail.Threshold - tail.From)), 1e-9);
            through += Math.Pow(10, Law(tail.Threshold)) / Draws;
        }

        Assert.InRange(through / FalseAlarm, 0.8, StrikeDetector.FalseAlarm / StrikeDetector.FalseAlarmOfAll);
    }

    private static double Law(double sum) => Math.Log10(0.5 * Math.Exp(-sum / Scale));
}
