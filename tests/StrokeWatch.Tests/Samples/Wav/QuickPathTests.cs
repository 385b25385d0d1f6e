using System.Runtime.InteropServices;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Wav;
using Xunit;

namespace StrokeWatch.Tests.Samples.Wav;

/// <summary>The passes that look at several numbers at once, beside the plain loops that they stand for.</summary>
public sealed class QuickPathTests
{
    [Fact]
    public void Three_channels_read_together_are_those_read_one_by_one()
    {
        var random = new Random(11);
        for (var frames = 0; frames < 40; frames++)
        {
            foreach (var channels in new[] { 3, 4, 7 })
            {
                var floats = Enumerable.Range(0, frames * channels).Select(_ => (float)(random.NextDouble() - 0.5)).ToArray();
                var bytes = MemoryMarshal.AsBytes<float>(floats);
                var first = channels - 3;
                double[] x = new double[frames], y = new double[frames], z = new double[frames], one = new double[frames];
                WavSamples.ReadThree(bytes, first, channels, 9.80665, x, y, z);
                foreach (var (together, channel) in new[] { (x, first), (y, first + 1), (z, first + 2) })
                {
                    WavSamples.Read(bytes, WavEncoding.Float32, channel, channels, 9.80665, one);
                    Assert.Equal(one, together);
                }
            }
        }
    }

    [Theory]
    [InlineData(float.NaN)]
    [InlineData(float.PositiveInfinity)]
    [InlineData(float.NegativeInfinity)]
    public void A_float_that_is_no_number_is_seen_wherever_it_stands(float bad)
    {
        for (var length = 1; length < 40; length++)
        {
            var floats = Enumerable.Range(0, length).Select(i => i % 2 == 0 ? float.MaxValue : -float.Epsilon).ToArray();
            Assert.Equal(float.MaxValue, Finite.Largest(MemoryMarshal.AsBytes<float>(floats)));
            for (var at = 0; at < length; at++)
            {
                var spoiled = floats.ToArray();
                spoiled[at] = bad;
                Assert.False(float.IsFinite(Finite.Largest(MemoryMarshal.AsBytes<float>(spoiled))));
            }
        }
    }

    [Fact]
    public void A_sample_at_the_rail_is_marked_wherever_it_stands()
    {
        for (var length = 1; length < 40; length++)
        {
            for (var at = 0; at < length; at++)
            {
                var block = new SampleBlock(2, length) { FullScale = 10 };
                block.Fill(0).Fill(9.98);
                block.Fill(1).Fill(-9.98);
                block.Fill(at % 2)[at] = at % 3 == 0 ? 9.99 : -9.99;
                block.SetCount(length);
                Clipping.Mark(block, 0, length);
                for (var n = 0; n < length; n++)
                {
                    Assert.Equal(n == at ? SampleMarks.Clipped : SampleMarks.None, block.Marks[n]);
                }
            }
        }
    }
}
