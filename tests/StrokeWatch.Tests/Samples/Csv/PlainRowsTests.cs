using System.Globalization;
using StrokeWatch.Tests.Samples.Captures;
using Xunit;

namespace StrokeWatch.Tests.Samples.Csv;

/// <summary>Rows that are read many at a time: the reference is the same table with a space before each row, which is read byte by byte.</summary>
public sealed class PlainRowsTests
{
    private static readonly string[] Spoilt =
        ["", "-", ".", "--1", "1.2.3", "1-2", "nan", "1e400", "Error", "+5", "5.", ".5", "-.5", "-0", "1e-3", "\"2\"", " 3 ", "9007199254740993", "12345678901234567890", "0.00000000000000001234"];

    [Fact]
    public void A_table_in_whole_registers_is_the_table_byte_by_byte()
    {
        var rejected = new HashSet<string>();
        for (var seed = 0; seed < 200; seed++)
        {
            var random = new Random(seed);
            var (head, rows) = Table(random);
            var end = random.Next(3) == 0 ? "\r\n" : "\n";
            var last = random.Next(2) == 0 ? end : "";
            var whole = Reading.OfText(head + end + string.Join(end, rows) + last);
            var byByte = Reading.OfText(head + end + string.Join(end, rows.Select(row => ' ' + row)) + last);
            var told = FormattableString.Invariant($"seed {seed}");
            Assert.True(byByte.Counters.Rejected.SequenceEqual(whole.Counters.Rejected), told);
            Assert.True(byByte.Blocks.SequenceEqual(whole.Blocks), told);
            Assert.Equal(byByte.Summary.Timestamps, whole.Summary.Timestamps);
            Assert.Equal(byByte.Summary.Samples, whole.Summary.Samples);
            for (var channel = 0; channel < whole.Values.Length; channel++)
            {
                Assert.True(byByte.Values[channel].Select(BitConverter.DoubleToInt64Bits).SequenceEqual(whole.Values[channel].Select(BitConverter.DoubleToInt64Bits)), told);
            }

            rejected.UnionWith(whole.Counters.Rejected.Keys);
        }

        Assert.Subset(rejected, new HashSet<string> { "not-a-number", "empty-cell", "too-few-columns", "too-many-columns", "nan-or-infinite", "error-text", "truncated", "time-backwards" });
    }

    [Fact]
    public void A_line_end_beyond_what_was_read_ends_no_row()
    {
        // The buffer's tail still holds what the file had there 64 KiB before: a row cut off at the end of the file must not end in it.
        var rows = string.Concat(Enumerable.Range(0, 10_000).Select(i => FormattableString.Invariant($"{i / 1000.0:F3},1.25\n")));
        for (var cut = 1; cut < 24; cut++)
        {
            var text = "t_s,x_g\n" + rows[..^cut];
            var reading = Reading.OfText(text);
            var rest = text.Length - text.LastIndexOf('\n') - 1;
            Assert.Equal(text.Count(c => c == '\n') - 1 + (rest == "9.999,1.25".Length ? 1 : 0), reading.Counters.Samples);
            Assert.Equal(rest is > 0 and < 10 ? 1 : 0, reading.Counters.Rejected.Values.Sum());
        }
    }

    [Theory]
    [InlineData("\r")]
    [InlineData("\n")]
    [InlineData("\r\n")]
    public void Blank_lines_between_rows_are_passed_over(string end)
    {
        var reading = Reading.OfText("t_s,x_g" + end + string.Concat(Enumerable.Range(0, 100).Select(i => FormattableString.Invariant($"{i / 1000.0:F3},{i}{end}{end}"))));
        Assert.Equal(100, reading.Counters.Samples);
        Assert.Equal(Enumerable.Range(0, 100).Select(i => i * Reading.G), reading.Values[0]);
        Assert.Empty(reading.Counters.Rejected);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void A_rejected_row_among_rounded_times_leaves_a_gap_of_one_wherever_it_stands(int place)
    {
        // Four rows share each millisecond: the row after the rejected one steps on to the next or it does not.
        var reading = Reading.OfText("t_s,x_g\n" + string.Concat(Enumerable.Range(0, 4000).Select(i =>
            FormattableString.Invariant($"{Math.Floor(i / 4.0) / 1000:F3},{(i == 2000 + place ? "-" : "0.5")}\n"))));
        Assert.Equal((1L, 1L, 3999L), (reading.Counters.Gaps, reading.Counters.MissingSamples, reading.Counters.Samples));
        Assert.Equal(2000 + place, reading.Blocks.Single(b => b.Gap).First);
    }

    private static (string Head, List<string> Rows) Table(Random random)
    {
        var (separator, channels, decimals) = (",;\t"[random.Next(3)], random.Next(1, 8), random.Next(0, 13));
        var (step, spoil) = (random.Next(3) == 0 ? 0.00025 : 0.001, random.Next(3) * 0.01);
        var comma = separator == ';' && random.Next(2) == 0;
        var rows = new List<string>();
        var time = random.Next(2) * 1.7e9;
        for (var i = 0; i < 3000; i++, time += step)
        {
            var cells = Enumerable.Range(0, channels + 1).Select(c => c == 0
                ? time.ToString("F6", CultureInfo.InvariantCulture)
                : (9 * Math.Sin(0.3 * i + c)).ToString("F" + decimals, CultureInfo.InvariantCulture)).ToList();
            if (random.NextDouble() < spoil)
            {
                cells[random.Next(cells.Count)] = Spoilt[random.Next(Spoilt.Length)];
                time += random.Next(-1, 3) * 2 * step;
                cells.AddRange(Enumerable.Repeat("7", random.Next(5) / 4));
                cells.RemoveRange(0, random.Next(5) / 4);
            }

            if (random.NextDouble() < spoil / 3)
            {
                rows.Add(new[] { "", "# note", "the sensor did not answer" }[random.Next(3)]);
            }

            var row = string.Join(separator, cells);
            rows.Add(comma ? row.Replace('.', ',') : row);
        }

        rows[^1] = rows[^1][..^random.Next(rows[^1].Length)];
        return ("t_s" + string.Concat(Enumerable.Range(0, channels).Select(c => separator + "xyzabcd"[c].ToString() + "_g")), rows);
    }
}
