using System.Globalization;
using System.Text;
using StrokeWatch.Samples.Csv;
using Xunit;

namespace StrokeWatch.Tests.Samples.Csv;

/// <summary>The reference is the framework's own correctly rounded parser.</summary>
public sealed class NumberTextTests
{
    [Fact]
    public void Any_double_written_in_any_usual_way_is_read_to_its_last_bit()
    {
        var random = new Random(1978);
        string[] formats = ["R", "G17", "E18", "F6", "F12", "G9", "E3", "0.000", "0.0000000000000000000000"];
        for (var i = 0; i < 200_000; i++)
        {
            var value = i % 2 == 0
                ? BitConverter.Int64BitsToDouble(random.NextInt64(long.MinValue, long.MaxValue))
                : (random.NextDouble() - 0.5) * Math.Pow(10, random.Next(-8, 8));
            if (!double.IsFinite(value) || (Math.Abs(value) > 1e15 && i % formats.Length is 3 or 4 or 7 or 8))
            {
                continue;
            }

            var text = value.ToString(formats[i % formats.Length], CultureInfo.InvariantCulture);
            Check(text, commaIsMark: false);
            Check(text.Replace('.', ','), commaIsMark: true);
        }
    }

    [Theory]
    [InlineData("0")]
    [InlineData("-0")]
    [InlineData("+7")]
    [InlineData(".5")]
    [InlineData("5.")]
    [InlineData("007.50")]
    [InlineData("1e5")]
    [InlineData("1E+05")]
    [InlineData("12345678901234567890123")]
    [InlineData("0.00000000000000000000000000012345678901234567890123")]
    [InlineData("9007199254740993")]
    [InlineData("1e22")]
    [InlineData("1e23")]
    [InlineData("4.9406564584124654e-324")]
    [InlineData("2.4703282292062327e-324")]
    [InlineData("1.7976931348623157e308")]
    [InlineData("1e400")]
    [InlineData("1e-400")]
    [InlineData("1e99999999999")]
    public void Edge_numbers_are_read_as_the_framework_reads_them(string text) => Check(text, commaIsMark: false);

    [Theory]
    [InlineData("")]
    [InlineData("-")]
    [InlineData(".")]
    [InlineData("e5")]
    [InlineData("abc")]
    [InlineData("+-1")]
    public void What_is_no_number_is_none(string text) => Assert.False(NumberText.TryRead(Encoding.ASCII.GetBytes(text), true, out _, out _));

    [Theory]
    [InlineData("1.5x", 3)]
    [InlineData("1,5", 1)]
    [InlineData("1e", 1)]
    [InlineData("1e+", 1)]
    [InlineData("1.2.3", 3)]
    public void A_number_ends_where_it_ends(string text, int length)
    {
        Assert.True(NumberText.TryRead(Encoding.ASCII.GetBytes(text), false, out _, out var used));
        Assert.Equal(length, used);
    }

    [Fact]
    public void Differences_of_long_clock_readings_keep_every_digit()
    {
        NumberText.TryRead("1714557600.123456789"u8, false, out var a, out _);
        NumberText.TryRead("1714557600.12345679"u8, false, out var b, out _);
        Assert.Equal(1e-9, b.Minus(a), 1e-20);
        Assert.Equal(-1e-9, a.Minus(b), 1e-20);
    }

    [Theory]
    [InlineData("2024-02-29T23:59:59.999999999Z", "2024-03-01T00:00:00Z", 1e-9)]
    [InlineData("2024-05-01 12:00:00+02:00", "2024-05-01T10:00:01Z", 1)]
    [InlineData("2024/05/01 12:00:00.5", "2024/05/01 12:00:00,75", 0.25)]
    [InlineData("23:59:59.0", "23:59:59.25", 0.25)]
    [InlineData("2024-05-01T10:00:00-0330", "2024-05-01T13:30:02Z", 2)]
    public void Times_of_the_clock_are_read(string first, string second, double seconds)
    {
        Assert.True(TimestampText.TryRead(Encoding.ASCII.GetBytes(first), out var a));
        Assert.True(TimestampText.TryRead(Encoding.ASCII.GetBytes(second), out var b));
        Assert.Equal(seconds, b.Minus(a), 1e-12);
    }

    [Theory]
    [InlineData("2024-02-30T10:00:00")]
    [InlineData("2024-13-01T10:00:00")]
    [InlineData("2024-05-01")]
    [InlineData("10:00")]
    [InlineData("10:61:00")]
    [InlineData("10:00:00 pm")]
    [InlineData("99:00:00")]
    [InlineData("2024-05-01T10:00:00+x")]
    public void Other_texts_are_no_times(string text) => Assert.False(TimestampText.TryRead(Encoding.ASCII.GetBytes(text), out _));

    private static void Check(string text, bool commaIsMark)
    {
        var bytes = Encoding.ASCII.GetBytes(text);
        Assert.True(NumberText.TryRead(bytes, commaIsMark, out var number, out var length), text);
        Assert.Equal(bytes.Length, length);
        var expected = double.Parse(text.Replace(',', '.'), NumberStyles.Float, CultureInfo.InvariantCulture);
        var read = NumberText.ToDouble(bytes, number);
        Assert.True(BitConverter.DoubleToInt64Bits(expected) == BitConverter.DoubleToInt64Bits(read), $"{text}: {read:R} for {expected:R}");
    }
}
