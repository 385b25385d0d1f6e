using Microsoft.Extensions.Time.Testing;
using StrokeWatch.Page.Waves;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Sources;
using Xunit;

namespace StrokeWatch.Tests.Page.Waves;

public sealed class SampleTapTests
{
    private const double Rate = 1000;
    private const int Size = 100;

    private static readonly SourceInfo Info = new() { Format = "frames", Axes = [Axis.X, Axis.Z], RateHz = Rate };

    private readonly FakeTimeProvider time = new();
    private readonly SampleTap tap;
    private readonly SampleBlock block = new(2, 2048);
    private long number;

    public SampleTapTests() => tap = new(time);

    [Fact]
    public void Nothing_is_kept_while_nobody_asks_and_the_last_second_is_there_soon_after_somebody_does()
    {
        Feed(30);
        Assert.Null(tap.Ask(1));
        Feed(9);
        Assert.Null(tap.Ask(1));
        Feed(1);
        var got = tap.Ask(1)!;
        Assert.Equal(Enumerable.Range(3000, 1000).Select(i => (double)i), got.Samples[0]);
        Assert.Equal(Enumerable.Range(3000, 1000).Select(i => -(double)i), got.Samples[1]);
    }

    [Fact]
    public void The_ring_goes_round_and_holds_the_newest_in_order()
    {
        _ = tap.Ask(1);
        Feed(37, 93);
        var got = tap.Ask(1)!;
        Assert.Equal(Enumerable.Range((37 * 93) - got.Samples[0].Length, got.Samples[0].Length).Select(i => (double)i), got.Samples[0]);
        Assert.Equal(SampleTap.Seconds * Rate, got.Samples[0].Length);
    }

    [Fact]
    public void What_lies_before_a_gap_is_not_given_as_if_it_were_the_last_second()
    {
        _ = tap.Ask(1);
        Feed(12);
        number += 500;
        Feed(9);
        Assert.Null(tap.Ask(1));
        Feed(1);
        Assert.Equal(number - 1000, (long)tap.Ask(1)!.Samples[0][0]);
    }

    [Fact]
    public void Who_stops_asking_is_forgotten_and_a_silent_sensor_gives_nothing()
    {
        _ = tap.Ask(1);
        Feed(12);
        time.Advance(TimeSpan.FromSeconds(6));
        Feed(12);
        Assert.NotNull(tap.Ask(1));
        time.Advance(TimeSpan.FromSeconds(2.5));
        Assert.Null(tap.Ask(1));
        Assert.Equal(2.5, tap.AgeSeconds);
    }

    [Fact]
    public void Samples_at_the_rail_are_counted_whoever_asks()
    {
        block.FillMarks()[3] = SampleMarks.Clipped;
        block.FillMarks()[4] = SampleMarks.FirstSensorClipped;
        Feed(1);
        Assert.Equal(2, tap.Clipped);
    }

    [Fact]
    public void Taking_a_block_allocates_nothing()
    {
        // The clock of the other tests allocates itself.
        var quiet = new SampleTap(new StillClock());
        _ = quiet.Ask(1);
        Feed(20, to: quiet);
        var before = GC.GetAllocatedBytesForCurrentThread();
        Feed(200, to: quiet);
        Assert.Equal(before, GC.GetAllocatedBytesForCurrentThread());
        Assert.NotNull(quiet.Ask(1));
    }

    [Fact]
    public async Task Whoever_measures_does_not_wait_while_others_read_without_end()
    {
        _ = tap.Ask(1);
        Feed(12);
        using var end = new CancellationTokenSource();
        var readers = Enumerable.Range(0, 4).Select(_ => Task.Run(() =>
        {
            while (!end.IsCancellationRequested)
            {
                if (tap.Ask(1) is { } got)
                {
                    Assert.Equal(got.Samples[0][0] + got.Samples[0].Length - 1, got.Samples[0][^1]);
                }
            }
        })).ToList();
        for (var i = 0; i < 5000; i++)
        {
            Feed(1);
        }

        await end.CancelAsync();
        await Task.WhenAll(readers);
        Feed(12);
        Assert.Equal(number - 1, (long)tap.Ask(1)!.Samples[0][^1]);
    }

    private void Feed(int blocks, int size = Size, SampleTap? to = null)
    {
        for (var b = 0; b < blocks; b++)
        {
            var one = block.Fill(0);
            var other = block.Fill(1);
            for (var n = 0; n < size; n++)
            {
                one[n] = number + n;
                other[n] = -one[n];
            }

            block.SetCount(size);
            block.StartSeconds = number / Rate;
            (to ?? tap).Take(block, Info);
            number += size;
        }
    }

    private sealed class StillClock : TimeProvider
    {
        public override long GetTimestamp() => 1;
    }
}
