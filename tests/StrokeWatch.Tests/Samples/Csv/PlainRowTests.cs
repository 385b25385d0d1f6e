using System.Globalization;
using System.Text;
using StrokeWatch.Samples.Csv;
using Xunit;

namespace StrokeWatch.Tests.Samples.Csv;

/// <summary>Rows in whole registers: the reference for values is the framework's own correctly rounded parser.</summary>
public sealed class PlainRowTests
{
    [Fact]
    public void Numbers_of_any_row_are_read_to_their_last_bit()
    {
        var random = new Random(1978);
        string[] formats = ["G9", "F9", "0", "0.0", "G15", ".000", "000.5"];
        var rows = Enumerable.Range(0, 50_000).Select(_ => Enumerable.Range(0, 3)
            .Select(_ => ((random.NextDouble() - 0.5) * Math.Pow(10, random.Next(-3, 6))).ToString(formats[random.Next(formats.Length)], CultureInfo.InvariantCulture)).ToArray()).ToList();
        var (read, next) = (0, 0);
        using var lines = Lines(string.Join('\n', rows.Select(cells => string.Join(',', cells))));
        while (lines.TryNext(out var line))
        {
            var cells = rows[next++];
            if (!PlainRow.TryLook(line, (byte)',', false, 3, out var row))
            {
                Assert.True(line.Length >= 64 || cells.Any(cell => cell.Contains('E', StringComparison.Ordinal)), string.Join(',', cells));
                continue;
            }

            foreach (var cell in cells)
            {
                if (!row.TryRead(out double value))
                {
                    Assert.True(cell.Length > 15 || !cell.Any(char.IsAsciiDigit), cell);
                    break;
                }

                Assert.Equal(BitConverter.DoubleToInt64Bits(double.Parse(cell, CultureInfo.InvariantCulture)), BitConverter.DoubleToInt64Bits(value));
                read++;
            }
        }

        Assert.Equal(rows.Count, next);
        Assert.InRange(read, 100_000, 150_000);
    }

    [Theory]
    [InlineData("1,2,3", true)]
    [InlineData("-1.5,.5,5.", true)]
    [InlineData("1,2", false)]
    [InlineData("1,2,3,4", false)]
    [InlineData("1,,3", false)]
    [InlineData("1,-,3", false)]
    [InlineData("1,.,3", false)]
    [InlineData("1,1.2.3,3", false)]
    [InlineData("1,2-,3", false)]
    [InlineData("1,--2,3", false)]
    [InlineData("1,2e5,3", false)]
    [InlineData("1, 2,3", false)]
    [InlineData("1,12345678901234567,3", false)]
    [InlineData("1,9007199254740993,3", false)]
    public void Only_plain_numbers_are_taken(string text, bool plain)
    {
        using var lines = Lines(text);
        Assert.True(lines.TryNext(out var line));
        var taken = PlainRow.TryLook(line, (byte)',', false, 3, out var row);
        for (var i = 0; taken && i < 3; i++)
        {
            taken = row.TryRead(out double _);
        }

        Assert.Equal(plain, taken);
    }

    private static ByteLines Lines(string text) => new(new MemoryStream(Encoding.ASCII.GetBytes(text)), (byte)'\n', 1000);
}
