using System.Text;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Tests.Samples.Captures;
using Xunit;

namespace StrokeWatch.Tests.Samples.Csv;

public sealed class CsvRejectTests
{
    [Theory]
    [InlineData("0.010,abc,1", RejectReasons.NotANumber)]
    [InlineData("0.010,1.2.3,1", RejectReasons.NotANumber)]
    [InlineData("0.010,--1,1", RejectReasons.NotANumber)]
    [InlineData("0.010,,1", RejectReasons.EmptyCell)]
    [InlineData("0.010,1", RejectReasons.TooFewColumns)]
    [InlineData("0.010,1,2,3", RejectReasons.TooManyColumns)]
    [InlineData("0.010,1,20.011,1,2", RejectReasons.TooManyColumns)]
    [InlineData("0.010,nan,1", RejectReasons.NanOrInfinite)]
    [InlineData("0.010,1,-Infinity", RejectReasons.NanOrInfinite)]
    [InlineData("0.010,1,1e999", RejectReasons.NanOrInfinite)]
    [InlineData("0.010,1.#QNAN,1", RejectReasons.NanOrInfinite)]
    [InlineData("Error: the sensor did not answer, retrying", RejectReasons.ErrorText)]
    [InlineData("timeout", RejectReasons.ErrorText)]
    public void A_bad_row_is_counted_under_its_reason_and_leaves_a_gap_of_one(string row, string reason)
    {
        foreach (var time in new[] { true, false })
        {
            var reading = Reading.OfText(With(row), time ? null : Reading.Columns("x=2,z=3,t=none") with { RateHz = 1000 }, capacity: 7);
            Assert.Equal(19, reading.Counters.Samples);
            Assert.Equal((1L, 1L), (reading.Counters.Gaps, reading.Counters.MissingSamples));
            Assert.Equal([(reason, 1L)], reading.Counters.Rejected.Select(r => (r.Key, r.Value)));
            Assert.Contains(reason, RejectReasons.All);
            var after = reading.Blocks.Single(b => b.Gap);
            Assert.Equal((10, 1L), (after.First, after.Missing));
            Assert.Equal(0.011, after.Start, 9);
            Assert.Equal(1000, reading.Info.RateHz!.Value, 6);
        }
    }

    [Fact]
    public void A_line_longer_than_the_buffer_is_one_rejected_row()
    {
        var reading = Reading.OfText(With("0.010," + new string('7', 600_000) + ",1"));
        Assert.Equal(19, reading.Counters.Samples);
        Assert.Equal(1, reading.Counters.Rejected[RejectReasons.ErrorText]);
    }

    [Theory]
    [InlineData("0.020,1.25", 1)]
    [InlineData("0.02", 1)]
    [InlineData("0.020,1.250,2.2", 1)]
    [InlineData("0.020,1.250,-", 1)]
    [InlineData("0.020,1.250,2.250", 0)]
    public void A_last_line_cut_short_is_normal(string last, long truncated)
    {
        var reading = Reading.OfText("t_s,x_g,z_g\n" + string.Concat(Enumerable.Range(0, 20).Select(i => $"{i / 1000.0:F3},1.250,2.250\n")) + last);
        Assert.Equal(truncated == 0 ? 21 : 20, reading.Counters.Samples);
        Assert.Equal(truncated, reading.Counters.Rejected.GetValueOrDefault(RejectReasons.Truncated));
        Assert.Equal(0, reading.Counters.Gaps);
    }

    [Fact]
    public void Columns_of_unequal_length_end_with_the_shorter()
    {
        var text = new StringBuilder("t_s,x_g,z_g\n");
        for (var i = 0; i < 30; i++)
        {
            text.Append(i < 20 ? $"{i / 1000.0:F3},1,2\n" : $"{i / 1000.0:F3},1,\n");
        }

        var reading = Reading.OfText(text.ToString());
        Assert.Equal(20, reading.Counters.Samples);
        Assert.Equal(10, reading.Counters.Rejected[RejectReasons.EmptyCell]);
    }

    [Fact]
    public void Every_value_zero_is_still_data() =>
        Assert.All(Reading.OfText("t_s,x_g\n" + string.Concat(Enumerable.Range(0, 9).Select(i => $"0.00{i},0\n"))).Values[0], v => Assert.Equal(0, v));

    [Theory]
    [InlineData("", "is empty")]
    [InlineData("\n\n\n", "no lines of text")]
    [InlineData("t_s,x_g,z_g\n", "header but no row of numbers")]
    [InlineData("# t_s,x_g,z_g\n", "header but no row of numbers")]
    [InlineData("The tray was cleaned.\nNothing was found.\nIt runs.\nIt is loud.\nIt stops.\nNo more.\n", "no columns of numbers")]
    [InlineData("a\u0000b\u0000\u0001\u0002", "neither text nor WAV")]
    [InlineData("0.000,1\n0.001,2\n0.002,3\n", "--unit")]
    [InlineData("t_s,x,z\n0.000,1,2\n0.001,2,3\n0.002,3,4\n", "--unit")]
    [InlineData("t_s,x_counts\n0.000,1\n0.001,2\n0.002,3\n", "--counts-per-g")]
    [InlineData("t_s,a,b,c,d\n0.000,1,2,3,4\n0.001,1,2,3,4\n0.002,1,2,3,4\n", "--columns")]
    [InlineData("t_s,x_g,z_m_s2\n0.000,1,2\n0.001,2,2\n0.002,3,2\n", "g and m_s2")]
    [InlineData("t_s\n0.000\n0.001\n0.002\n", "no column of numbers beside its time")]
    public void What_cannot_be_read_is_named_in_one_line_with_what_to_do(string text, string words)
    {
        var line = Reading.ErrorOf(text);
        Assert.StartsWith("cullet.csv: ", line, StringComparison.Ordinal);
        Assert.Contains(words, line, StringComparison.Ordinal);
        Assert.DoesNotContain('\n', line);
    }

    [Theory]
    [InlineData("5", "1 't_s', 2 'x_g', 3 'note'")]
    [InlineData("z=force", "'force'")]
    [InlineData("z=3", "holds no numbers")]
    [InlineData("x=2,z=x_g", "same")]
    [InlineData("t=3,x=2", "holds no times")]
    public void A_column_that_is_not_there_is_an_error_that_lists_those_that_are(string columns, string words)
    {
        var text = "t_s,x_g,note\n" + string.Concat(Enumerable.Range(0, 40).Select(i => $"{i / 1000.0:F3},1,ok\n"));
        Assert.Contains(words, Reading.ErrorOf(text, Reading.Columns(columns)), StringComparison.Ordinal);
    }

    [Fact]
    public void Options_out_of_range_are_errors()
    {
        Assert.Contains("--rate-hz", Reading.ErrorOf("x_g\n1\n", new() { RateHz = 0 }), StringComparison.Ordinal);
        Assert.Contains("--full-scale-g", Reading.ErrorOf("x_g\n1\n", new() { FullScaleG = double.NaN }), StringComparison.Ordinal);
        Assert.Contains("--counts-per-g", Reading.ErrorOf("x_g\n1\n", new() { CountsPerG = -1 }), StringComparison.Ordinal);
        Assert.Contains("--skip-rows", Reading.ErrorOf("x_g\n1\n", new() { SkipRows = -1 }), StringComparison.Ordinal);
    }

    private static string With(string row)
    {
        var text = new StringBuilder("t_s,x_g,z_g\n");
        for (var i = 0; i < 20; i++)
        {
            text.Append(i == 10 ? row : $"{i / 1000.0:F3},1,2").Append('\n');
        }

        return text.ToString();
    }
}
