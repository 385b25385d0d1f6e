using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Sources;
using Xunit;

namespace StrokeWatch.Tests.Samples.Sources;

public sealed class ReadAheadTests
{
    private const int BlockSamples = 64;

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(6)]
    [InlineData(500)]
    [InlineData(100_000)]
    public void It_gives_what_the_source_gives_in_the_same_order(int blocks)
    {
        using var ahead = new ReadAhead(new Counting(blocks), BlockSamples);
        var block = new SampleBlock(2, BlockSamples);
        for (var i = 0; i < blocks; i++)
        {
            Assert.Equal(SourceState.Samples, ahead.Read(block));
            Counting.Check(block, i);
        }

        Assert.Equal(SourceState.End, ahead.Read(block));
        Assert.Equal(SourceState.End, ahead.Read(block));
        Assert.Equal(0, block.Count);
        Assert.Equal(blocks, ahead.Counters.Samples);
    }

    [Fact]
    public void Trouble_of_the_source_is_told_when_its_place_has_come_and_not_before()
    {
        using var ahead = new ReadAhead(new Counting(100, fails: 40), BlockSamples);
        var block = new SampleBlock(2, BlockSamples);
        for (var i = 0; i < 40; i++)
        {
            Assert.Equal(SourceState.Samples, ahead.Read(block));
            Counting.Check(block, i);
        }

        Assert.Equal("torn at 40", Assert.Throws<IOException>(() => ahead.Read(block)).Message);
        Assert.Equal(SourceState.End, ahead.Read(block));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(3)]
    public void It_can_be_left_in_the_middle(int read)
    {
        var source = new Counting(1_000_000);
        var block = new SampleBlock(2, BlockSamples);
        var ahead = new ReadAhead(source, BlockSamples);
        for (var i = 0; i < read; i++)
        {
            _ = ahead.Read(block);
        }

        ahead.Dispose();

        // Nobody reads the source any more: it belongs to its owner again.
        var given = source.Given;
        Assert.InRange(given, read, read + 6);
        Assert.Equal(SourceState.Samples, source.Read(block));
        Assert.Equal(given + 1, source.Given);
    }

    /// <summary>Blocks that tell their own number in everything they carry.</summary>
    private sealed class Counting(int blocks, int fails = -1) : ISampleSource
    {
        public int Given { get; private set; }

        public SourceInfo Info { get; } = new() { Format = "count", Axes = [Axis.X, Axis.Z], RateHz = 1000 };

        public SourceCounters Counters { get; } = new();

        public static void Check(SampleBlock block, int number)
        {
            Assert.Equal((1 + (number % BlockSamples), number, number % 3 == 0, number % 2 == 0), (block.Count, block.StartSeconds, block.GapBefore, block.HasTimes));
            Assert.Equal(number % 3 == 0 ? number : 0, block.MissingBefore);
            Assert.Equal(number + 0.5, block[1][^1]);
            Assert.Equal(number % 5 == 0 ? SampleMarks.Clipped : SampleMarks.None, block.Marks[^1]);
            Assert.Equal(number % 2 == 0 ? block.Count : 0, block.Times.Length);
        }

        public SourceState Read(SampleBlock block)
        {
            block.Clear();
            if (Given == fails)
            {
                throw new IOException($"torn at {Given}");
            }

            if (Given == blocks)
            {
                return SourceState.End;
            }

            var count = 1 + (Given % BlockSamples);
            (block.StartSeconds, block.GapBefore, block.HasTimes) = (Given, Given % 3 == 0, Given % 2 == 0);
            block.MissingBefore = block.GapBefore ? Given : 0;
            block.Fill(0)[..count].Fill(Given);
            block.Fill(1)[..count].Fill(Given + 0.5);
            block.FillTimes()[..count].Fill(Given);
            block.FillMarks()[count - 1] = Given % 5 == 0 ? SampleMarks.Clipped : SampleMarks.None;
            block.SetCount(count);
            Given++;
            Counters.Samples++;
            return SourceState.Samples;
        }

        public void Dispose()
        {
        }
    }
}
