using StrokeWatch.Samples.Blocks;
using StrokeWatch.Sensors.Decoding;
using StrokeWatch.Sensors.Frames;
using Xunit;

namespace StrokeWatch.Tests.Sensors.Frames;

[Collection(Undisturbed.Name)]
public sealed class FrameDecoderTests
{
    [Theory]
    [InlineData(1, 7)]
    [InlineData(2, 7)]
    [InlineData(3, 7)]
    [InlineData(1, 1)]
    [InlineData(2, 4)]
    [InlineData(3, 5)]
    [InlineData(1, 6)]
    public void What_was_sent_is_what_is_heard(int format, byte axes)
    {
        var stream = new TestStream((SampleFormat)format, axes);
        var listener = new TestListener(channels: FrameAxes.Count(axes));
        listener.Hear([.. stream.Announcement(), .. stream.Samples(1), .. stream.Samples(64), .. stream.Samples(8)]);

        Assert.Equal(73, listener.Received);
        Assert.Equal(1, listener.Announcements);
        Assert.Empty(listener.Gaps);
        Assert.Empty(listener.Counters.Rejected);
        var sensor = listener.LastRun.Sensor!;
        Assert.Equal(FrameAxes.List(axes), sensor.Axes);
        Assert.Equal(4000, sensor.RateHz);
        Assert.Equal(32767 * 0.0625, sensor.FullScale);
        Assert.Equal("test device 1.0", sensor.Firmware);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    public void The_edges_of_the_number_range_come_through(int format)
    {
        var edge = format == 1 ? 32767 : 8388607;
        var head = new FrameHead { Axes = 1, Format = (SampleFormat)format, RateMilliHz = 1000, Scale = 1, Rail = (uint)edge };
        var block = new SampleBlock(1, 4);
        ReadOnlySpan<double> values = [edge, -edge, -1, 0];
        values.CopyTo(block.Fill(0));
        block.SetCount(4);
        var frame = new byte[FrameHead.MaxLength];
        var length = new FrameEncoder(head).Samples(frame, block, 0, 4, 0);
        var run = new SampleRun();
        var decoder = new FrameDecoder(new());
        _ = decoder.Feed(frame.AsSpan(0, length));

        Assert.Equal(DecodeState.Samples, decoder.Next(run));
        Assert.Equal(values.ToArray(), run[0][..4].ToArray());
        Assert.Equal([SampleMarks.Clipped, SampleMarks.Clipped], run.Marks[..2].ToArray());
    }

    [Fact]
    public void A_stream_may_be_split_anywhere()
    {
        var stream = new TestStream();
        byte[] bytes = [.. stream.Announcement(), .. stream.Samples(), .. stream.Samples(), .. stream.Samples()];
        for (var split = 0; split <= bytes.Length; split++)
        {
            var listener = new TestListener();
            listener.Hear(bytes.AsSpan(0, split));
            listener.Hear(bytes.AsSpan(split));
            Assert.Equal(24, listener.Received);
            Assert.Empty(listener.Counters.Rejected);
        }

        var slow = new TestListener();
        slow.Hear(bytes, piece: 1);
        Assert.Equal(24, slow.Received);
        Assert.Equal(0, slow.Counters.SkippedBytes);
    }

    [Fact]
    public void Any_change_of_any_one_byte_costs_that_frame_and_no_other()
    {
        var stream = new TestStream();
        var frames = stream.Frames(24);
        byte[] good = [.. frames.SelectMany(f => f)];
        var at = frames[0].Length;
        for (var position = at; position < at + frames[1].Length; position++)
        {
            for (var change = 1; change < 256; change++)
            {
                var bytes = good.ToArray();
                bytes[position] ^= (byte)change;
                var listener = new TestListener();
                listener.Hear(bytes);
                Assert.Equal([TestStream.PerFrame], listener.Gaps);
                Assert.Equal(23 * TestStream.PerFrame, listener.Received);
                Assert.NotEmpty(listener.Counters.Rejected);
            }
        }
    }

    [Fact]
    public void Any_byte_lost_or_added_costs_that_frame_and_no_other()
    {
        var stream = new TestStream();
        var frames = stream.Frames(24);
        byte[] good = [.. frames.SelectMany(f => f)];
        var from = frames[0].Length;
        for (var position = from; position < from + frames[1].Length; position++)
        {
            var less = new TestListener();
            less.Hear([.. good[..position], .. good[(position + 1)..]]);
            Assert.Equal([TestStream.PerFrame], less.Gaps);

            var more = new TestListener();
            more.Hear([.. good[..position], 0xA5, .. good[position..]]);
            Assert.True(more.Gaps is [] or [TestStream.PerFrame]);
            Assert.Equal((24 - more.Gaps.Count) * TestStream.PerFrame, more.Received);
            Assert.True(more.Counters.SkippedBytes > 0);
        }
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void Rubbish_between_frames_costs_nothing_whatever_it_holds(int seed)
    {
        var random = new Random(seed);
        var stream = new TestStream();
        var listener = new TestListener();
        var bytes = new List<byte>(stream.Samples());
        const int count = 400;
        for (var i = 1; i < count; i++)
        {
            var rubbish = new byte[random.Next(1, 90)];
            random.NextBytes(rubbish);
            for (var j = 0; j + 1 < rubbish.Length && random.Next(3) > 0; j += random.Next(1, 20))
            {
                (rubbish[j], rubbish[j + 1]) = (FrameHead.Sync0, FrameHead.Sync1);
            }

            bytes.AddRange(rubbish);
            if (random.Next(4) == 0)
            {
                // A whole head that promises the longest frame there is.
                bytes.AddRange([0xA5, 0x57, 0x11, 0, 0x2A, 0x04, 1, 0, 1, 0, 1, 1, .. new byte[28]]);
            }

            bytes.AddRange(stream.Samples());
        }

        listener.Hear([.. bytes]);
        listener.Break();
        Assert.Equal(count * TestStream.PerFrame, listener.Received);
        Assert.Empty(listener.Gaps);
        Assert.True(listener.Rejected("rubbish") > 0 && listener.Rejected("frame") > 0 && listener.Rejected("checksum") > 0);
    }

    [Fact]
    public void Random_bytes_never_become_samples_and_never_throw()
    {
        var random = new Random(11);
        var bytes = new byte[4096];
        var listener = new TestListener();
        for (var i = 0; i < 500; i++)
        {
            random.NextBytes(bytes);
            for (var j = random.Next(100); j < bytes.Length - 12; j += random.Next(1, 200))
            {
                byte[] start = [0xA5, 0x57, 0x11, (byte)random.Next(4), 0x2A, (byte)random.Next(5), 0, 0, 0, 0, (byte)random.Next(1, 8), (byte)random.Next(1, 4)];
                start.CopyTo(bytes, j);
            }

            listener.Hear(bytes);
        }

        Assert.Equal(0, listener.Received);
        Assert.Equal(1, listener.Rejected("joining"));
    }

    [Fact]
    public void A_frame_held_up_by_a_false_length_comes_out_when_the_port_goes()
    {
        var stream = new TestStream();
        var listener = new TestListener();
        listener.Hear(stream.Samples());
        listener.Hear([0xA5, 0x57, 0x11, 0, 0x2A, 0x04, 1, 0, 1, 0, 1, 1, .. new byte[28], .. stream.Samples()]);
        Assert.Equal(TestStream.PerFrame, listener.Received);
        listener.Break();
        Assert.Equal(2 * TestStream.PerFrame, listener.Received);
        Assert.Equal(1, listener.Rejected("length"));
    }

    [Fact]
    public void Joining_in_the_middle_of_a_frame_is_one_count_and_no_gap()
    {
        var stream = new TestStream();
        var listener = new TestListener(firstSample: TestStream.PerFrame);
        listener.Hear([.. stream.Samples()[20..], .. stream.Samples()]);
        Assert.Equal(TestStream.PerFrame, listener.Received);
        Assert.Empty(listener.Gaps);
        Assert.Equal(1, listener.Rejected("joining"));
        listener.Break();
        var lost = stream.Samples();
        listener.Hear([.. lost[30..], .. stream.Samples()]);
        Assert.Equal(2, listener.Rejected("joining"));
        Assert.Equal([TestStream.PerFrame], listener.Gaps);
    }

    [Fact]
    public void The_steady_state_allocates_nothing()
    {
        var stream = new TestStream();
        byte[] bytes = [.. stream.Announcement(), .. stream.Frames(20).SelectMany(f => f)];
        byte[] more = [.. stream.Announcement(), .. stream.Frames(20).SelectMany(f => f), 1, 2, 3, 0xA5, 0x57, 0, .. stream.Frames(10)[9]];
        var decoder = new FrameDecoder(new());
        var run = new SampleRun();
        Assert.Equal(160, Count(bytes));
        _ = Count(more);
        stream.Counter = 0;
        byte[] last = [.. stream.Announcement(), .. stream.Frames(20).SelectMany(f => f), 1, 2, 3, 0xA5, 0x57, 0, .. stream.Frames(10)[9]];
        var before = GC.GetAllocatedBytesForCurrentThread();
        var count = Count(last);
        Assert.Equal(0, GC.GetAllocatedBytesForCurrentThread() - before);
        Assert.Equal(168, count);

        int Count(byte[] feed)
        {
            var samples = 0;
            _ = decoder.Feed(feed);
            while (decoder.Next(run) != DecodeState.None)
            {
                samples += run.Count;
            }

            return samples;
        }
    }
}
