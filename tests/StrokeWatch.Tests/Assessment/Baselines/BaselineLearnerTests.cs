using StrokeWatch.Assessment.Baselines;
using StrokeWatch.Tests.Assessment.Trends;
using Xunit;

namespace StrokeWatch.Tests.Assessment.Baselines;

public sealed class BaselineLearnerTests
{
    private static readonly DateTimeOffset Begin = new(2026, 3, 2, 6, 0, 0, TimeSpan.Zero);

    [Fact]
    public void Mean_spread_count_and_dates_are_those_of_the_readings()
    {
        var learner = new BaselineLearner(new() { Enough = 5, Shortest = TimeSpan.FromHours(4) });
        double[] strokes = [2.00, 2.02, 1.98, 2.01, 1.99];
        for (var i = 0; i < strokes.Length; i++)
        {
            Assert.Null(learner.Result);
            Assert.Equal(LearningOutcome.Taken, learner.Offer(Begin.AddHours(i), [new("stroke_mm", strokes[i], 0.004)], alarm: false));
        }

        var stroke = learner.Result!.Find("stroke_mm")!;
        Assert.Equal(2, stroke.Mean, 1e-12);
        Assert.Equal(Math.Sqrt(0.001 / 4), stroke.Spread, 1e-12);
        Assert.Equal(0.004, stroke.OwnUncertainty, 1e-12);
        Assert.Equal((5, Begin, Begin.AddHours(4)), (stroke.Count, stroke.From, stroke.To));
        Assert.Equal((BaselineOrigin.Learned, Begin.AddHours(4)), (learner.Result.Origin, learner.Result.Made));
        Assert.Equal(LearningOutcome.Complete, learner.Offer(Begin.AddHours(5), [new("stroke_mm", 9)], alarm: false));
    }

    [Fact]
    public void Nothing_is_learned_from_a_feeder_with_an_alarm()
    {
        var learner = new BaselineLearner(new() { Enough = 3, Shortest = TimeSpan.Zero });
        for (var i = 0; i < 10; i++)
        {
            Assert.Equal(LearningOutcome.Alarm, learner.Offer(Begin.AddHours(i), [new("stroke_mm", 1.2)], alarm: true));
        }

        Assert.Null(learner.Result);
        for (var i = 10; i < 13; i++)
        {
            learner.Offer(Begin.AddHours(i), [new("stroke_mm", 2)], alarm: false);
        }

        Assert.Equal((2.0, 3), (learner.Result!.Find("stroke_mm")!.Mean, learner.Result.Find("stroke_mm")!.Count));
        Assert.Equal(10, learner.RefusedForAlarms);
    }

    [Fact]
    public void Many_readings_of_one_shift_are_not_enough()
    {
        var learner = new BaselineLearner(new());
        for (var minute = 0; minute < 3 * 1440; minute++)
        {
            learner.Offer(Begin.AddMinutes(minute), [new("stroke_mm", 2 + 0.001 * (minute % 7))], alarm: false);
            Assert.Null(learner.Result);
        }

        Assert.StartsWith("learning: 2.9 of at least 3 days", learner.Progress(), StringComparison.Ordinal);
        for (var minute = 3 * 1440; learner.Result is null && minute < 4 * 1440; minute++)
        {
            learner.Offer(Begin.AddMinutes(minute), [new("stroke_mm", 2)], alarm: false);
        }

        // Every so-manieth is kept, over the whole time.
        var stroke = learner.Result!.Find("stroke_mm")!;
        Assert.InRange(stroke.Count!.Value, 256, 512);
        Assert.Equal(Begin, stroke.From);
        Assert.Equal(2.003, stroke.Mean, 5e-4);
    }

    [Fact]
    public void What_comes_seldom_is_waited_for_and_then_kept_with_what_there_is()
    {
        var learner = new BaselineLearner(new());
        var ended = -1;
        for (var hour = 0; hour < 24 * 20 && ended < 0; hour++)
        {
            List<FeatureReading> readings = [new("stroke_mm", 2 + 0.01 * (hour % 3))];
            if (hour % 24 == 0)
            {
                readings.Add(new("natural_frequency_hz", 66.1 + 0.02 * (hour % 48 / 24), 0.05));
            }

            if (hour % 96 == 0)
            {
                readings.Add(new("damping_ratio", 0.02));
            }

            learner.Offer(Begin.AddHours(hour), readings, alarm: false);
            ended = learner.Result is null ? -1 : hour;
            if (hour == 24 * 10)
            {
                Assert.Equal("learning: 10.0 of at least 3 days, damping_ratio 3 of 30 readings, natural_frequency_hz 11 of 30 readings", learner.Progress());
            }
        }

        Assert.Equal(24 * 14, ended);
        Assert.Equal(15, learner.Result!.Find("natural_frequency_hz")!.Count);
        Assert.Null(learner.Result.Find("damping_ratio"));
    }

    [Fact]
    public void A_single_wild_reading_neither_moves_the_mean_nor_widens_the_spread()
    {
        var normal = new NormalReadings(3);
        var learner = new BaselineLearner(new() { Enough = 60, Shortest = TimeSpan.Zero });
        for (var hour = 0; hour < 60; hour++)
        {
            learner.Offer(Begin.AddHours(hour), [new("stroke_mm", hour == 20 ? 7 : 2 + 0.01 * normal.Next())], alarm: false);
        }

        var stroke = learner.Result!.Find("stroke_mm")!;
        Assert.Equal((59, 1), (stroke.Count, stroke.SetAside));
        Assert.Equal(2, stroke.Mean, 0.004);
        Assert.InRange(stroke.Spread, 0.007, 0.013);
    }

    [Fact]
    public void What_is_no_number_or_no_later_is_passed_over()
    {
        var learner = new BaselineLearner(new());
        Assert.Equal(LearningOutcome.Nothing, learner.Offer(Begin, [new("stroke_mm", double.NaN), new("noise_m_s2", 1, double.NaN)], alarm: false));
        Assert.Equal(LearningOutcome.Taken, learner.Offer(Begin, [new("stroke_mm", 2)], alarm: false));
        Assert.Equal(LearningOutcome.NotLater, learner.Offer(Begin, [new("stroke_mm", 2)], alarm: false));
        for (var i = 0; i < 1000; i++)
        {
            learner.Offer(Begin.AddHours(1 + i), [new($"made_up_{i}", 1)], alarm: false);
        }

        Assert.Equal(64, learner.Taken);
    }
}
