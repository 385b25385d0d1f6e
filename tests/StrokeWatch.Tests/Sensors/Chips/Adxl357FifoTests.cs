using StrokeWatch.Sensors.Chips;
using Xunit;

namespace StrokeWatch.Tests.Sensors.Chips;

/// <summary>Entries of the ADXL357's store, written out by hand: twenty bits, left-justified, two's complement, bit 0 for x, bit 1 for empty (data sheet, FIFO_DATA).</summary>
public sealed class Adxl357FifoTests
{
    private readonly Adxl357Fifo fifo = new();
    private readonly ChipDrain drain = new(40);

    [Theory]
    [InlineData(0, 0x00, 0x00, 0x00)]
    [InlineData(1, 0x00, 0x00, 0x10)]
    [InlineData(-1, 0xFF, 0xFF, 0xF0)]
    [InlineData(524287, 0x7F, 0xFF, 0xF0)]
    [InlineData(-524288, 0x80, 0x00, 0x00)]
    [InlineData(12800, 0x03, 0x20, 0x01)]
    [InlineData(-51200, 0xF3, 0x80, 0x00)]
    public void Twenty_bits_keep_their_sign(int value, byte high, byte middle, byte low) => Assert.Equal(value, Adxl357Fifo.Value([high, middle, low]));

    [Fact]
    public void Samples_are_three_entries_and_the_first_is_marked()
    {
        fifo.Take([.. X(-1), .. Other(1), .. Other(-524288), .. X(524287), .. Other(0), .. Other(7)], drain);
        Assert.Equal([-1, 1, -524288], drain[0].ToArray());
        Assert.Equal([524287, 0, 7], drain[1].ToArray());
        Assert.Equal((2, 0L), (drain.Count, drain.Resyncs));
    }

    [Fact]
    public void An_entry_that_is_missing_costs_its_sample_alone_and_is_told_once()
    {
        fifo.Take([.. X(1), .. Other(2), .. Other(3), .. X(4), .. Other(5), .. X(7), .. Other(8), .. Other(9), .. X(10), .. Other(11), .. Other(12)], drain);
        Assert.Equal((3, 1L), (drain.Count, drain.Resyncs));
        Assert.Equal([7, 8, 9], drain[1].ToArray());
        Assert.Equal([false, true, false], [drain.BreakBefore(0), drain.BreakBefore(1), drain.BreakBefore(2)]);
    }

    [Fact]
    public void What_begins_in_the_middle_is_skipped_up_to_the_next_x()
    {
        fifo.Take([.. Other(2), .. Other(3), .. X(4), .. Other(5), .. Other(6)], drain);
        Assert.Equal([4, 5, 6], drain[0].ToArray());
        Assert.Equal((1, 1L, true), (drain.Count, drain.Resyncs, drain.BreakBefore(0)));
    }

    [Fact]
    public void The_empty_marker_is_no_sample()
    {
        fifo.Take([.. X(1), .. Other(2), .. Other(3), 0, 0, 2, .. X(4), .. Other(5), .. Other(6)], drain);
        Assert.Equal(1, drain.Count);
        fifo.Take([0xFF, 0xFF, 0xFF], drain);
        Assert.Equal(1, drain.Count);
    }

    [Fact]
    public void A_sample_may_lie_across_two_drains()
    {
        fifo.Take([.. X(1), .. Other(2)], drain);
        Assert.Equal(0, drain.Count);
        fifo.Take([.. Other(3), .. X(4)], drain);
        fifo.Take([.. Other(5), .. Other(6)], drain);
        Assert.Equal([1, 2, 3, 4, 5, 6], [.. drain[0], .. drain[1]]);
        Assert.Equal(0, drain.Resyncs);
    }

    private static byte[] X(int value) => Entry(value, 1);

    private static byte[] Other(int value) => Entry(value, 0);

    private static byte[] Entry(int value, int marker) => [(byte)(value >> 12), (byte)(value >> 4), (byte)(((value & 15) << 4) | marker)];
}
