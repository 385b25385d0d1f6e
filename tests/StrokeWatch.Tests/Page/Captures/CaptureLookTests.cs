using StrokeWatch.Page.Captures;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Sources;
using Xunit;

namespace StrokeWatch.Tests.Page.Captures;

public sealed class CaptureLookTests
{
    [Theory]
    [InlineData(1, 50)]
    [InlineData(99, 50)]
    [InlineData(100, 50)]
    [InlineData(101, 50)]
    [InlineData(12_345, 50)]
    [InlineData(100_000, 333)]
    public void Every_sample_lies_in_its_column_and_each_column_touches_its_ends(int count, int points)
    {
        var chance = new Random(7);
        double[] samples = [.. Enumerable.Range(0, count).Select(_ => (double)(float)(100 * chance.NextDouble() - 50))];
        var look = CaptureLook.Of(new Given(samples), points);
        Assert.Equal(count, look.Samples);
        Assert.InRange(look.Least[0].Count, Math.Min(count, points), 2 * points);
        var each = (int)look.PerColumn;
        Assert.Equal((count + each - 1) / each, look.Least[0].Count);
        for (var column = 0; column < look.Least[0].Count; column++)
        {
            var part = samples.AsSpan(column * each, Math.Min(each, count - column * each)).ToArray();
            Assert.Equal((part.Min(), part.Max()), (look.Least[0][column], look.Largest[0][column]));
        }
    }

    private sealed class Given(double[] samples) : ISampleSource
    {
        private int at;

        public SourceInfo Info { get; } = new() { Format = "wav", Axes = [Axis.X], RateHz = 1000 };

        public SourceCounters Counters { get; } = new();

        public SourceState Read(SampleBlock block)
        {
            // Blocks of an odd size, so that columns reach over their ends.
            var part = Math.Min(777, samples.Length - at);
            samples.AsSpan(at, part).CopyTo(block.Fill(0));
            block.SetCount(part);
            at += part;
            return part > 0 ? SourceState.Samples : SourceState.End;
        }

        public void Dispose()
        {
        }
    }
}
