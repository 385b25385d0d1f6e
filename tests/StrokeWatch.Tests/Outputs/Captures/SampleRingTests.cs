using StrokeWatch.Outputs.Captures;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Samples.Sources;
using Xunit;

namespace StrokeWatch.Tests.Outputs.Captures;

[Collection(Undisturbed.Name)]
public sealed class SampleRingTests
{
    private static readonly SourceInfo Info = new() { Format = "frames", Axes = [Axis.X, Axis.Y, Axis.Z], RateHz = 4000, HasSupply = true };

    [Fact]
    public void Its_memory_is_four_bytes_a_sample_and_channel_and_filling_it_allocates_nothing()
    {
        // 30 s of three axes at 4 kHz: 1.44 MB; the voltage of the supply is a fourth channel.
        Assert.Equal(4L * 3 * ((30 * 4000) + 1), new SampleRing(Info with { HasSupply = false }, 3, 4000, 30).Bytes);
        var ring = new SampleRing(Info, 3, 4000, 1);
        var block = Block(2048, 0);
        ring.Take(block, 4000, 1);
        var before = GC.GetAllocatedBytesForCurrentThread();
        for (var i = 0; i < 1000; i++)
        {
            (block.GapBefore, block.MissingBefore) = (i % 7 == 0, i);
            ring.Take(block, 4000, i);
        }

        Assert.Equal(0, GC.GetAllocatedBytesForCurrentThread() - before);
    }

    [Fact]
    public void Gaps_and_numbers_that_are_none_come_out_as_frames_that_say_how_many_are_missing()
    {
        var ring = new SampleRing(Info, 3, 4000, 1);
        var block = Block(4, 100);
        (block.GapBefore, block.MissingBefore) = (true, 70_000);
        block.Fill(2)[1] = double.NaN;
        block.Fill(0)[2] = double.PositiveInfinity;
        block.FillSupply()[3] = double.NaN;
        ring.Take(block, 4000, 1);
        var place = 0L;
        var read = new float[10 * 4];
        Assert.Equal(5, ring.Read(ref place, read, out var overwritten));
        Assert.Equal((5L, 0L), (place, overwritten));
        Assert.Equal([70_000, -1, 1, 1, -1], Enumerable.Range(0, 5).Select(i => SampleRing.Missing(read[4 * i])));
        Assert.Equal([100f, 100.25f, 100.5f, 325f], read[4..8]);
        Assert.True(float.IsNaN(read[19]));
        Assert.Equal(69_999, ring.MissingBetween(0, 5));
    }

    [Fact]
    public async Task A_reader_beside_a_filling_thread_gets_every_frame_whole_or_is_told_how_many_it_missed()
    {
        const int Blocks = 60_000;
        var ring = new SampleRing(Info with { HasSupply = false }, 3, 4000, 0.25);
        var filling = Task.Run(() =>
        {
            var block = new SampleBlock(3, 100);
            for (var n = 0; n < Blocks; n++)
            {
                block.SetCount(100);
                for (var channel = 0; channel < 3; channel++)
                {
                    for (var i = 0; i < 100; i++)
                    {
                        block.Fill(channel)[i] = ((n * 100 + i) % 4_000_000) * Gravity.Standard;
                    }
                }

                ring.Take(block, 4000, n);
            }
        });
        var (place, got, missed, wrong) = (0L, 0L, 0L, 0L);
        var frames = new float[300 * 3];
        var spread = new Random(5);
        while (!filling.IsCompleted || place < ring.Head)
        {
            var count = ring.Read(ref place, frames.AsSpan(0, 3 * spread.Next(1, 300)), out var overwritten);
            (got, missed) = (got + count, missed + overwritten);
            for (var i = 0; i < count; i++)
            {
                var expected = (float)((place - count + i) % 4_000_000);
                wrong += frames[3 * i] == expected && frames[(3 * i) + 1] == expected && frames[(3 * i) + 2] == expected ? 0 : 1;
            }
        }

        await filling;
        Assert.Equal((0L, Blocks * 100L), (wrong, got + missed));
        Assert.True(got > 1000 && missed > 0, $"{got} read, {missed} missed");
    }

    private static SampleBlock Block(int count, double from)
    {
        var block = new SampleBlock(3, count) { HasSupply = true };
        block.SetCount(count);
        for (var i = 0; i < count; i++)
        {
            for (var channel = 0; channel < 3; channel++)
            {
                block.Fill(channel)[i] = (from + (0.25 * channel)) * Gravity.Standard;
            }

            block.FillSupply()[i] = 325;
        }

        return block;
    }
}
