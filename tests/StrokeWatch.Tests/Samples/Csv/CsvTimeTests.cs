using System.Globalization;
using System.Text;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Samples.Sources;
using StrokeWatch.Tests.Samples.Captures;
using Xunit;

namespace StrokeWatch.Tests.Samples.Csv;

/// <summary>Times that are rounded, jitter, repeat, run back or leave gaps. The reference is the list of times that the test itself makes.</summary>
public sealed class CsvTimeTests
{
    [Theory]
    [InlineData(1020.4, 1e-3, 20_000)]
    [InlineData(4000, 1e-3, 20_000)]
    [InlineData(3201.37, 1e-3, 100_000)]
    [InlineData(980, 1e-3, 20_000)]
    [InlineData(1001, 1e-3, 20_000)]
    [InlineData(800, 1e-3, 5_000)]
    [InlineData(6664, 1e-4, 20_000)]
    [InlineData(400.02, 1e-6, 4_000)]
    [InlineData(1000, 1.0 / 64, 20_000)]
    [InlineData(25_600, 1e-3, 100_000)]
    public void Rounded_times_give_the_rate_of_the_whole_span_and_no_gap_and_lose_no_row(double rate, double resolution, int rows)
    {
        var reading = Read(Enumerable.Range(0, rows).Select(i => Math.Floor(i / rate / resolution) * resolution));
        var times = reading.Summary.Timestamps!;
        Assert.Equal(rate, reading.Info.RateHz!.Value, rate * (2 * resolution * rate / rows / Math.Sqrt(rows) + 2e-6));
        Assert.Equal(rows, reading.Counters.Samples);
        Assert.Empty(reading.Counters.Rejected);
        Assert.Equal(0, reading.Counters.Gaps);
        Assert.Equal(resolution / Math.Sqrt(12), times.JitterRmsSeconds, resolution * 0.1);
    }

    [Fact]
    public void The_median_step_would_be_two_per_cent_wrong_where_the_span_is_right()
    {
        var times = Enumerable.Range(0, 10_000).Select(i => Math.Round(i / 1020.4, 3)).ToArray();
        var steps = times.Zip(times.Skip(1), (a, b) => b - a).Order().ToArray();
        Assert.Equal(1000, 1 / steps[steps.Length / 2], 1e-6);
        Assert.Equal(1020.4, Read(times).Info.RateHz!.Value, 0.01);
    }

    [Theory]
    [InlineData(0.05)]
    [InlineData(0.2)]
    [InlineData(0.35)]
    public void Jitter_is_measured_and_is_no_gap(double jitter)
    {
        var random = new Random(20_240_501);
        const double rate = 4000;
        var reading = Read(Enumerable.Range(0, 20_000).Select(i => (i + (jitter * Normal(random))) / rate));
        Assert.Equal(rate, reading.Info.RateHz!.Value, 0.05);
        Assert.Equal(jitter / rate, reading.Summary.Timestamps!.JitterRmsSeconds, 0.03 * jitter / rate);
        Assert.Equal(0, reading.Counters.Gaps);
        Assert.InRange(reading.Counters.Rejected.Values.Sum(), 0, jitter > 0.3 ? 400 : 0);
    }

    [Fact]
    public void Rows_stamped_in_bursts_of_32_as_a_host_reads_them_are_no_gaps()
    {
        var random = new Random(7);
        var bursts = Enumerable.Range(0, 500).Select(b => ((b * 32) + 31) / 4000.0 + (0.0005 * random.NextDouble())).ToArray();
        var reading = Read(Enumerable.Range(0, 16_000).Select(i => bursts[i / 32]));
        Assert.Equal(4000, reading.Info.RateHz!.Value, 2.0);
        Assert.Equal((0L, 16_000L), (reading.Counters.Gaps, reading.Counters.Samples));

        var lost = Read(Enumerable.Range(0, 16_000).Where(i => i / 32 != 250).Select(i => bursts[i / 32]));
        Assert.Equal(1, lost.Counters.Gaps);
        Assert.InRange(lost.Counters.MissingSamples, 30, 34);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(17)]
    [InlineData(100_000)]
    public void A_gap_is_found_where_it_is_with_its_length_and_does_not_shift_the_rate(int missing)
    {
        const double rate = 3201.37;
        var reading = Read(Enumerable.Range(0, 9000).Select(i => (i < 5000 ? i : i + missing) / rate), capacity: 512);
        Assert.Equal(rate, reading.Info.RateHz!.Value, 1e-4);
        var after = reading.Blocks.Single(b => b.Gap);
        Assert.Equal((5000, (long)missing), (after.First, after.Missing));
        Assert.Equal((5000 + missing) / rate, after.Start, 1e-7);
        var times = reading.Summary.Timestamps!;
        Assert.Equal((1L, (long)missing), (times.Gaps, times.MissingSamples));
        Assert.Equal((missing + 1) / rate, times.LargestGapSeconds, 1e-7);
        Assert.Equal((8999 + missing) / rate, times.SpanSeconds, 1e-7);
        Assert.Equal(9000, reading.Summary.Samples);
    }

    [Fact]
    public void Many_gaps_at_random_are_all_found()
    {
        var random = new Random(11);
        var kept = Enumerable.Range(0, 50_000).Where(i => i < 10 || random.NextDouble() > 0.1).ToArray();
        var reading = Read(kept.Select(i => i / 4000.0));
        Assert.Equal(4000, reading.Info.RateHz!.Value, 1e-5);
        Assert.Equal(kept.Zip(kept.Skip(1)).Count(p => p.Second - p.First > 1), reading.Counters.Gaps);
        Assert.Equal(kept[^1] + 1 - kept.Length, reading.Counters.MissingSamples);
    }

    [Fact]
    public void A_gap_is_found_among_jitter_and_a_late_stamp_is_none()
    {
        var random = new Random(5);
        var times = Enumerable.Range(0, 8000).Select(i => ((i < 3000 ? i : i + 1) + (0.1 * Normal(random))) / 4000.0).ToArray();
        times[6000] += 0.8 / 4000;
        var reading = Read(times);
        Assert.Equal((1L, 1L), (reading.Counters.Gaps, reading.Counters.MissingSamples));
        Assert.Equal(3000, reading.Blocks.Single(b => b.Gap).First);
    }

    [Fact]
    public void A_clock_that_stalls_and_catches_up_is_no_gap()
    {
        var reading = Read(Enumerable.Range(0, 8000).Select(i => (i is > 4000 and < 4012 ? 4012 - (0.001 * (4012 - i)) : i) / 4000.0));
        Assert.Equal(0, reading.Counters.Gaps);
        Assert.Equal(8000, reading.Counters.Samples);
    }

    [Fact]
    public void A_gap_among_rounded_times_is_found()
    {
        var reading = Read(Enumerable.Range(0, 20_000).Select(i => Math.Floor((i < 9000 ? i : i + 40) / 4.0) / 1000));
        Assert.Equal((1L, 40L), (reading.Counters.Gaps, reading.Counters.MissingSamples));
        Assert.Equal(9000, reading.Blocks.Single(b => b.Gap).First);
        Assert.Equal(4000, reading.Info.RateHz!.Value, 0.01);
    }

    [Fact]
    public void A_rejected_row_among_rounded_times_is_a_gap_though_the_times_do_not_show_it()
    {
        var text = new StringBuilder("t_s,x_g\n");
        for (var i = 0; i < 8000; i++)
        {
            text.Append(CultureInfo.InvariantCulture, $"{Math.Floor(i / 4.0) / 1000:F3},{(i == 4001 ? "nan" : "1")}\n");
        }

        var reading = Reading.OfText(text.ToString());
        Assert.Equal((1L, 1L), (reading.Counters.Gaps, reading.Counters.MissingSamples));
        Assert.Equal(4000, reading.Info.RateHz!.Value, 0.01);
    }

    [Fact]
    public void A_row_out_of_order_is_rejected_and_counted()
    {
        var times = Enumerable.Range(0, 1000).Select(i => i / 1000.0).ToArray();
        (times[500], times[501]) = (times[501], times[500]);
        times[700] = 0.1;
        var reading = Read(times);
        Assert.Equal(2, reading.Counters.Rejected[RejectReasons.TimeBackwards]);
        Assert.Equal((998L, 2L, 2L), (reading.Counters.Samples, reading.Counters.Gaps, reading.Counters.MissingSamples));
        Assert.Equal(1000, reading.Info.RateHz!.Value, 1e-6);
        Assert.Equal(2, reading.Summary.Timestamps!.BackwardSteps);
    }

    [Fact]
    public void A_stamp_from_the_future_does_not_take_the_rows_after_with_it()
    {
        var times = Enumerable.Range(0, 1000).Select(i => i / 1000.0).ToArray();
        times[600] = 77;
        var reading = Read(times);
        Assert.Equal(1, reading.Counters.Rejected[RejectReasons.TimeBackwards]);
        Assert.Equal((999L, 1L, 1L), (reading.Counters.Samples, reading.Counters.Gaps, reading.Counters.MissingSamples));
    }

    [Fact]
    public void A_clock_set_back_begins_a_new_stretch_and_starts_never_run_back()
    {
        var reading = Read(Enumerable.Range(0, 2000).Select(i => (i < 1200 ? i : i - 1100) / 1000.0), capacity: 100);
        var after = reading.Blocks.Single(b => b.Gap);
        Assert.Equal((1200, 0L), (after.First, after.Missing));
        Assert.Equal(1.2, after.Start, 1e-9);
        Assert.Equal(2000, reading.Counters.Samples);
        Assert.Equal(1000, reading.Info.RateHz!.Value, 1e-6);
        Assert.Equal(1, reading.Summary.Timestamps!.BackwardSteps);
        Assert.Equal(1.199 + 0.799, reading.Summary.Timestamps.SpanSeconds, 1e-9);
        Assert.Equal(reading.Blocks.Select(b => b.Start).Order(), reading.Blocks.Select(b => b.Start));
    }

    [Fact]
    public void A_row_sent_twice_is_rejected_where_rounding_cannot_explain_it()
    {
        var rows = Enumerable.Range(0, 1000).SelectMany(i => i == 400 ? new[] { i, i } : [i]);
        var reading = Read(rows.Select(i => i / 4000.0));
        Assert.Equal(1, reading.Counters.Rejected[RejectReasons.TimeRepeated]);
        Assert.Equal((1000L, 0L, 1L), (reading.Counters.Samples, reading.Counters.Gaps, reading.Summary.Timestamps!.Repeats));
        Assert.Equal(4000, reading.Info.RateHz!.Value, 1e-5);
    }

    [Fact]
    public void Empty_time_cells_here_and_there_lose_nothing()
    {
        var text = "t_s,x_g\n" + string.Concat(Enumerable.Range(0, 1000).Select(i => i % 7 == 3 ? ",1\n" : FormattableString.Invariant($"{i / 1000.0:F3},1\n")));
        var reading = Reading.OfText(text);
        Assert.Equal((1000L, 0L), (reading.Counters.Samples, reading.Counters.Gaps));
        Assert.Equal(1000, reading.Info.RateHz!.Value, 1e-6);
    }

    [Fact]
    public void Stamps_counted_since_1970_keep_their_microseconds_and_nanoseconds()
    {
        foreach (var (digits, name) in new[] { (6, "timestamp_us"), (9, "timestamp_ns") })
        {
            var text = new StringBuilder(name + ",x_g\n");
            for (var i = 0; i < 5000; i++)
            {
                text.Append(CultureInfo.InvariantCulture, $"{(1_714_557_600L * (long)Math.Pow(10, digits)) + (long)Math.Round(i / 3201.37 * Math.Pow(10, digits))},1\n");
            }

            var reading = Reading.OfText(text.ToString());
            Assert.Equal(3201.37, reading.Info.RateHz!.Value, 1e-3);
            Assert.InRange(reading.Summary.Timestamps!.JitterRmsSeconds, 0, 0.4 * Math.Pow(10, -digits));
        }
    }

    [Theory]
    [InlineData("0.000,1\n0.001,1\n0.002,1\n0.003,1\n", 1000)]
    [InlineData("0.00,1\n0.25,1\n0.50,1\n0.75,1\n", 4000)]
    [InlineData("100,1\n350,1\n600,1\n850,1\n", 4000)]
    [InlineData("250000,1\n500000,1\n750000,1\n1000000,1\n", 4000)]
    [InlineData("1714557600.000,1\n1714557600.001,1\n1714557600.002,1\n1714557600.003,1\n", 1000)]
    [InlineData("1714557600000,1\n1714557600002,1\n1714557600004,1\n1714557600006,1\n", 500)]
    public void The_unit_of_time_is_guessed_by_size_and_reported(string rows, double rate)
    {
        var reading = Reading.OfText(rows, new() { Unit = AccelerationUnit.G });
        Assert.Equal(rate, reading.Info.RateHz!.Value, 1e-6 * rate);
        Assert.Contains(reading.Info.Guesses, g => g.Contains("--time-unit", StringComparison.Ordinal));
    }

    [Fact]
    public void The_rate_given_by_the_user_wins_and_the_gaps_of_the_time_column_remain()
    {
        var text = Text(Enumerable.Range(0, 1000).Select(i => (i < 500 ? i : i + 5) / 1000.0));
        var reading = Reading.OfText(text, new() { RateHz = 1003 });
        Assert.Equal((1003.0, RateOrigin.Option), (reading.Info.RateHz!.Value, reading.Info.RateFrom));
        Assert.Equal(505 / 1003.0, reading.Blocks.Single(b => b.Gap).Start, 1e-9);
        Assert.Equal(5, reading.Counters.MissingSamples);
    }

    [Fact]
    public void Times_that_do_not_advance_are_ignored_and_that_is_said()
    {
        var reading = Reading.OfText("# rate_hz: 500\nt_s,x_g\n" + string.Concat(Enumerable.Repeat("0,1\n", 50)));
        Assert.Equal((500.0, RateOrigin.Header), (reading.Info.RateHz!.Value, reading.Info.RateFrom));
        Assert.Contains(reading.Info.Guesses, g => g.Contains("do not advance", StringComparison.Ordinal));
    }

    private static Reading Read(IEnumerable<double> times, int capacity = 1000) => Reading.OfText(Text(times), capacity: capacity);

    private static string Text(IEnumerable<double> times)
    {
        var text = new StringBuilder("t_s,x_g\n");
        foreach (var time in times)
        {
            text.Append(CultureInfo.InvariantCulture, $"{Math.Round(time, 9)},1\n");
        }

        return text.ToString();
    }

    private static double Normal(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
