using StrokeWatch.Assessment.Trends;
using Xunit;

namespace StrokeWatch.Tests.Assessment.Trends;

public sealed class ChangeFinderTests
{
    private static readonly DateTimeOffset Begin = new(2026, 3, 1, 6, 0, 0, TimeSpan.Zero);

    [Fact]
    public void A_step_without_noise_is_found_to_the_reading_and_the_digit()
    {
        var readings = Days(20, day => day < 12 ? 100 : 98, 0.1);
        var change = ChangeFinder.Find(readings, 100, 0)!;
        Assert.Equal((ChangeShape.Step, 12), (change.Shape, change.Reading));
        Assert.Equal(Begin.AddDays(12), change.At);
        Assert.Equal(Begin.AddDays(11), change.Earliest);
        Assert.Equal(Begin.AddDays(12), change.Latest);
        Assert.Equal(-2, change.Size, 1e-12);
        Assert.Equal(0.1 / Math.Sqrt(8), change.SizeUncertainty, 1e-6);
        Assert.Equal(0, change.RatePerDay!.Value, 1e-9);
    }

    [Fact]
    public void A_ramp_without_noise_is_found_with_its_rate()
    {
        var readings = Days(30, day => 66 - Math.Max(0, day - 10) * 0.05, 0.05);
        var change = ChangeFinder.Find(readings, 66, 0)!;
        Assert.Equal(ChangeShape.Ramp, change.Shape);
        Assert.Equal(Begin.AddDays(10), change.At);
        Assert.Equal(-0.05, change.RatePerDay!.Value, 1e-9);
        Assert.Equal(-0.95, change.Size, 1e-9);
    }

    [Fact]
    public void Gaps_in_time_do_not_bend_a_ramp()
    {
        int[] days = [0, 1, 2, 3, 10, 11, 40, 41, 42, 60];
        var readings = days.Select(day => new DatedReading(Begin.AddDays(day), 66 - Math.Max(0, day - 10) * 0.02, 0.02)).ToList();
        var change = ChangeFinder.Find(readings, 66, 0)!;
        Assert.Equal((ChangeShape.Ramp, Begin.AddDays(10)), (change.Shape, change.At));
        Assert.Equal(-0.02, change.RatePerDay!.Value, 1e-9);
    }

    [Fact]
    public void A_single_wild_reading_moves_neither_date_nor_size()
    {
        var readings = Days(30, day => day == 18 ? 140 : day < 20 ? 100 : 101, 0.2);
        var change = ChangeFinder.Find(readings, 100, 0)!;
        Assert.Equal(20, change.Reading);
        Assert.Equal(1, change.Size, 1e-9);
    }

    [Fact]
    public void The_uncertainty_of_the_baseline_is_in_that_of_the_size()
    {
        var allAfter = Days(20, _ => 98, 0.1);
        Assert.Equal(Math.Sqrt(0.01 / 20 + 0.09), ChangeFinder.Find(allAfter, 100, 0.3)!.SizeUncertainty, 1e-6);

        // Readings before the change tell the mean better than the baseline did: 12 of them, weighed with it.
        var change = ChangeFinder.Find(Days(20, day => day < 12 ? 100.05 : 98, 0.1), 100, 0.3)!;
        Assert.Equal(-2.05 + 0.05 / (1 + 12 * 9), change.Size, 1e-9);
        Assert.Equal(Math.Sqrt(0.01 / 8 + 1 / (1 / 0.09 + 12 / 0.01)), change.SizeUncertainty, 1e-6);
    }

    [Fact]
    public void Two_readings_far_off_are_a_step_and_no_accident()
    {
        var change = ChangeFinder.Find(Days(30, day => day < 28 ? 100 : 106, 1), 100, 0)!;
        Assert.Equal((28, 6.0), (change.Reading, change.Size));
    }

    /// <summary>Seeded: of the stated 95 % at least 92 % and no fewer than the binomial scatter allows.</summary>
    [Fact]
    public void The_stated_dates_and_sizes_hold_as_often_as_they_say()
    {
        const int Runs = 2000;
        var normal = new NormalReadings(5);
        int dates = 0, sizes = 0, steps = 0;
        for (var run = 0; run < Runs; run++)
        {
            var readings = Days(60, day => normal.Next() + (day < 40 ? 0 : 1.5), 1);
            var change = ChangeFinder.Find(readings, 0, 0)!;
            steps += change.Shape == ChangeShape.Step ? 1 : 0;
            dates += change.Earliest < Begin.AddDays(40) && change.Latest >= Begin.AddDays(40) ? 1 : 0;
            sizes += change.Shape == ChangeShape.Step && Math.Abs(change.Size - 1.5) < 2 * change.SizeUncertainty ? 1 : 0;
        }

        Assert.InRange(steps, 0.9 * Runs, Runs);
        Assert.InRange(dates, 0.90 * Runs, Runs);
        Assert.InRange(sizes, 0.92 * steps, steps);
    }

    /// <summary>Without noise, against the probabilities worked out here shape by shape.</summary>
    [Fact]
    public void A_slow_ramps_dates_are_as_probable_as_what_its_size_may_be_by_now()
    {
        var readings = Days(120, day => 10 + Math.Max(0, day - 60) * 0.02, 1);
        var change = ChangeFinder.Find(readings, 10, 0)!;

        // By hand, with y = 0.02 (day − 60): gains of both shapes, flat in the size by now; 1.5 % before, 2.5 % after.
        double Gain(int begin, Func<int, double> shape, out double weight)
        {
            double product = 0;
            weight = 0;
            for (var day = begin; day < 120; day++)
            {
                product += shape(day) * Math.Max(0, day - 60) * 0.02;
                weight += shape(day) * shape(day);
            }

            return product * product / (2 * weight);
        }

        var step = Shares(begin => (Gain(begin, _ => 1, out var weight), weight));
        var ramp = Shares(begin => begin == 119 ? (double.NegativeInfinity, 1) : (Gain(begin, day => (day - begin) / (119.0 - begin), out var weight), weight));
        var top = Math.Max(step.Top, ramp.Top);
        var shares = step.Values.Select((value, i) => value * Math.Exp(step.Top - top) + ramp.Values[i] * Math.Exp(ramp.Top - top)).ToList();
        var early = Enumerable.Range(0, 120).First(i => shares.Take(i + 1).Sum() > 0.015 * shares.Sum());
        Assert.Equal(Begin.AddDays(early - 1), change.Earliest);

        // A ramp of a reading may begin as late as at the next.
        double Later(int i) => Enumerable.Range(i, 120 - i).Sum(k => step.Values[k] * Math.Exp(step.Top - top) + ramp.Values[k - 1] * Math.Exp(ramp.Top - top));
        Assert.Equal(Begin.AddDays(Enumerable.Range(1, 119).Last(i => Later(i) > 0.025 * shares.Sum())), change.Latest);
        Assert.Equal(ChangeShape.Ramp, change.Shape);
        Assert.Equal(0.02, change.RatePerDay!.Value, 1e-9);

        static (List<double> Values, double Top) Shares(Func<int, (double Gain, double Weight)> of)
        {
            var all = Enumerable.Range(0, 120).Select(of).ToList();
            var best = all.MaxBy(each => each.Gain);
            return ([.. all.Select(each => Math.Exp(each.Gain - best.Gain) * Math.Sqrt(best.Weight / each.Weight))], best.Gain);
        }
    }

    /// <summary>Readings an hour apart, three months of standstill, readings again: the change lies somewhere in the standstill, and no nearer.</summary>
    [Theory]
    [InlineData(3)]
    [InlineData(14)]
    public void A_change_in_a_long_standstill_is_dated_by_its_two_ends(int seed)
    {
        var normal = new NormalReadings(seed);
        List<DatedReading> readings =
        [
            .. Enumerable.Range(0, 300).Select(i => new DatedReading(Begin.AddHours(i), normal.Next(), 1)),
            .. Enumerable.Range(0, 20).Select(i => new DatedReading(Begin.AddDays(92).AddHours(i), normal.Next() - 6, 1)),
        ];
        var change = ChangeFinder.Find(readings, 0, 0)!;
        Assert.InRange(change.Earliest, Begin, Begin.AddHours(299));
        Assert.InRange(change.Latest, Begin.AddDays(92), Begin.AddDays(92).AddHours(1));
        Assert.False(change.MayBeOlder);
    }

    [Fact]
    public void What_began_before_the_readings_is_said_to_be_older_perhaps()
    {
        Assert.True(ChangeFinder.Find(Days(20, _ => 98, 0.5), 100, 0)!.MayBeOlder);
        Assert.False(ChangeFinder.Find(Days(20, day => day < 12 ? 100 : 98, 0.1), 100, 0)!.MayBeOlder);
    }

    [Fact]
    public void Nothing_is_found_in_nothing() => Assert.Null(ChangeFinder.Find([], 0, 0));

    private static List<DatedReading> Days(int count, Func<int, double> value, double deviation) =>
        [.. Enumerable.Range(0, count).Select(day => new DatedReading(Begin.AddDays(day), value(day), deviation))];
}
