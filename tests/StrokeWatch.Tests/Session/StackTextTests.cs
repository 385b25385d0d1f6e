using StrokeWatch.Machine.Feeder;
using StrokeWatch.Session;
using StrokeWatch.Tests.Commands;
using Xunit;

namespace StrokeWatch.Tests.Session;

public sealed class StackTextTests
{
    [Theory]
    [InlineData("4x4.0 1x3.0", "4x4.0 1x3.0")]
    [InlineData("1x3 4x4", "4x4.0 1x3.0")]
    [InlineData("2x4 + 2 × 4,0mm", "4x4.0")]
    [InlineData(" 3X2.5 ; 1*3 mm ", "1x3.0 3x2.5")]
    [InlineData("4x4.0,1x3.0", "4x4.0 1x3.0")]
    [InlineData("4x4,1x3", "4x4.0 1x3.0")]
    [InlineData("5x0.125in", "5x3.175")]
    public void A_stack_is_read_in_loose_spelling_and_written_in_one(string typed, string written)
    {
        Assert.Equal(written, StackText.Write(StackText.Read(typed, out var trouble)!));
        Assert.Null(trouble);
        Assert.Equal(written, TuneFiles.WithDecimalComma(() => StackText.Write(StackText.Read(typed, out _)!)));
    }

    [Theory]
    [InlineData("")]
    [InlineData("5")]
    [InlineData("x4")]
    [InlineData("4x")]
    [InlineData("4x4.0 and 1x3")]
    [InlineData("0x4")]
    [InlineData("4x0")]
    [InlineData("4x400")]
    [InlineData("99999x4")]
    [InlineData("-4x4")]
    [InlineData("4x4.0.1")]
    public void What_is_no_stack_is_refused_in_one_line(string typed)
    {
        Assert.Null(StackText.Read(typed, out var trouble));
        Assert.False(string.IsNullOrEmpty(trouble));
        Assert.DoesNotContain('\n', trouble!);
    }

    [Fact]
    public void What_is_written_reads_back_for_any_thickness_of_a_thousandth()
    {
        var random = new Random(11);
        for (var i = 0; i < 200; i++)
        {
            IReadOnlyList<LeafLayer> stack = [new(random.Next(50, 20_000) / 1e6, random.Next(1, 20)), new(random.Next(50, 20_000) / 1e6, random.Next(1, 20))];
            var written = StackText.Write(stack);
            Assert.Equal(written, StackText.Write(StackText.Read(written, out _)!));
        }
    }
}
