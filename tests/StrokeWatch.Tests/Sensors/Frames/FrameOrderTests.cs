using System.Buffers.Binary;
using StrokeWatch.Sensors.Frames;
using Xunit;

namespace StrokeWatch.Tests.Sensors.Frames;

public sealed class FrameOrderTests
{
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(300)]
    [InlineData(40000)]
    [InlineData(65535)]
    [InlineData(65536)]
    [InlineData(70000)]
    public void Lost_frames_become_one_gap_with_their_samples_counted(int lost)
    {
        var stream = new TestStream();
        var listener = new TestListener();
        listener.Hear(stream.Samples());
        for (var i = 0; i < lost; i++)
        {
            _ = stream.Samples();
        }

        listener.Hear([.. stream.Samples(), .. stream.Samples()]);
        Assert.Equal([(long)lost * TestStream.PerFrame], listener.Gaps);
        Assert.Empty(listener.Counters.Rejected);
    }

    [Fact]
    public void The_sequence_number_wraps_without_a_trace()
    {
        var stream = new TestStream();
        var listener = new TestListener();
        for (var i = 0; i < 70000; i++)
        {
            listener.Hear(stream.Samples(1));
        }

        Assert.Equal(70000, listener.Received);
        Assert.Empty(listener.Gaps);
    }

    [Fact]
    public void A_lost_announcement_is_no_gap()
    {
        var stream = new TestStream();
        var listener = new TestListener();
        listener.Hear([.. stream.Announcement(), .. stream.Samples()]);
        _ = stream.Announcement();
        listener.Hear(stream.Samples());
        Assert.Empty(listener.Gaps);
        Assert.Equal(2 * TestStream.PerFrame, listener.Received);
    }

    [Fact]
    public void Frames_lost_around_an_announcement_are_one_gap()
    {
        var stream = new TestStream();
        var listener = new TestListener();
        listener.Hear(stream.Samples());
        _ = stream.Samples();
        listener.Hear(stream.Announcement());
        _ = stream.Samples();
        listener.Hear(stream.Samples());
        Assert.Equal([2 * TestStream.PerFrame], listener.Gaps);
    }

    [Theory]
    [InlineData((ushort)77)]
    [InlineData((ushort)0)]
    public void A_repeated_frame_is_turned_down(ushort start)
    {
        var stream = new TestStream(start: start);
        var listener = new TestListener();
        var frame = stream.Samples();
        listener.Hear([.. frame, .. frame, .. stream.Samples()]);
        Assert.Equal(2 * TestStream.PerFrame, listener.Received);
        Assert.Equal(1, listener.Rejected("order"));
        Assert.Empty(listener.Gaps);
    }

    [Fact]
    public void Frames_and_announcements_that_come_late_again_are_turned_down()
    {
        var stream = new TestStream();
        var listener = new TestListener();
        var frames = stream.Frames(5);
        var announcement = stream.Announcement();
        listener.Hear([.. frames.SelectMany(f => f), .. announcement, .. announcement, .. frames[2], .. frames[4], .. stream.Samples()]);
        Assert.Equal(6 * TestStream.PerFrame, listener.Received);
        Assert.Equal(1, listener.Announcements);
        Assert.Equal(3, listener.Rejected("order"));
        Assert.Empty(listener.Gaps);
    }

    [Theory]
    [InlineData((ushort)77, (ushort)78)]
    [InlineData((ushort)0, (ushort)0)]
    public void A_device_that_starts_anew_leaves_a_gap_of_unknown_length(ushort before, ushort after)
    {
        var first = new TestStream(start: before);
        var listener = new TestListener();
        listener.Hear([.. first.Frames(5).SelectMany(f => f)]);
        var second = new TestStream(start: after);
        listener.Hear([.. second.Announcement(), .. second.Samples(), .. second.Samples()]);
        Assert.Equal([(long?)null], listener.Gaps);
        Assert.Equal(1, listener.Restarts);
        Assert.Equal(7 * TestStream.PerFrame, listener.Received);
    }

    [Fact]
    public void A_new_start_is_seen_even_where_its_counters_are_ahead_of_the_old_ones()
    {
        var first = new TestStream(start: 1);
        var listener = new TestListener();
        listener.Hear([.. first.Frames(5).SelectMany(f => f)]);
        var second = new TestStream(start: 2) { Counter = 4000 };
        listener.Hear(second.Samples(), afterRestart: 4000);
        Assert.Equal([(long?)null], listener.Gaps);
        Assert.Equal(1, listener.Restarts);
    }

    [Fact]
    public void A_new_start_under_the_old_number_is_believed_after_eight_frames()
    {
        var listener = new TestListener();
        listener.Hear([.. new TestStream(start: 5).Frames(100).SelectMany(f => f)]);
        listener.Hear([.. new TestStream(start: 5).Frames(100).SelectMany(f => f)], afterRestart: 8 * TestStream.PerFrame);
        Assert.Equal(8, listener.Rejected("order"));
        Assert.Equal(1, listener.Restarts);
        Assert.Equal(192 * TestStream.PerFrame, listener.Received);
    }

    [Fact]
    public void Samples_that_the_device_itself_lost_are_a_gap_of_the_length_it_counted()
    {
        var stream = new TestStream();
        var listener = new TestListener();
        listener.Hear(stream.Samples());
        stream.Counter += 100;
        listener.Hear(Flagged(stream.Samples()));
        listener.Hear(Flagged(stream.Samples()));
        Assert.Equal([100, null], listener.Gaps);
        Assert.Equal(0, listener.Restarts);

        static byte[] Flagged(byte[] frame)
        {
            frame[3] |= (byte)FrameFlags.Overflow;
            BinaryPrimitives.WriteUInt16LittleEndian(frame.AsSpan(frame.Length - 2), Crc16.Of(frame.AsSpan(0, frame.Length - 2)));
            return frame;
        }
    }

    [Fact]
    public void The_rate_is_measured_by_the_devices_own_clock()
    {
        var stream = new TestStream { ClockRateHz = 3880 };
        var listener = new TestListener();
        for (var i = 0; i < 4000 * 9 / TestStream.PerFrame; i++)
        {
            listener.Hear(stream.Samples());
        }

        Assert.Null(listener.LastRun.MeasuredRateHz);
        for (var i = 0; i < 4000 * 12 / TestStream.PerFrame; i++)
        {
            var frame = stream.Samples();
            if (i % 10 != 0)
            {
                listener.Hear(frame);
            }
        }

        Assert.Equal(3880, listener.LastRun.MeasuredRateHz!.Value, 0.001);
    }
}
