using StrokeWatch.Samples.Blocks;
using StrokeWatch.Sensors.Decoding;
using StrokeWatch.Sensors.Frames;
using Xunit;

namespace StrokeWatch.Tests.Sensors.Frames;

/// <summary>Version 2 of the framed protocol: several sensors on one clock.</summary>
[Collection(Undisturbed.Name)]
public sealed class SeveralFramesTests
{
    [Theory]
    [InlineData(1, 7, 1)]
    [InlineData(1, 7, 3)]
    [InlineData(1, 7, 8)]
    [InlineData(2, 5, 8)]
    [InlineData(3, 7, 8)]
    [InlineData(3, 4, 2)]
    public void What_was_sent_is_what_is_heard(int format, byte axes, int sensors)
    {
        var channels = sensors * FrameAxes.Count(axes);
        var stream = new TestStream((SampleFormat)format, axes, sensors: sensors, several: true);
        var listener = new TestListener(channels: channels);
        listener.Hear([.. stream.Announcement(), .. stream.Samples(1), .. stream.Samples(10), .. stream.Samples(8)]);
        Assert.Equal((19, 1), (listener.Received, listener.Announcements));
        Assert.Empty(listener.Gaps);
        Assert.Empty(listener.Counters.Rejected);
        var sensor = listener.LastRun.Sensor!;
        Assert.Equal((sensors, 4000.0, "test device 1.0"), (sensor.Sensors, sensor.RateHz, sensor.Firmware));
        Assert.Equal(FrameAxes.List(axes), sensor.Axes);
    }

    [Fact]
    public void The_largest_frame_of_eight_sensors_goes_through_the_decoder()
    {
        var head = new FrameHead { Kind = FrameKind.SeveralSamples, Sensors = 8, Axes = FrameAxes.All, Format = SampleFormat.Int16, RateMilliHz = 1000, Scale = 1, Rail = 100 };
        var encoder = new FrameEncoder(head);
        Assert.Equal(21, encoder.MaxSamples);
        var block = new SampleBlock(24, encoder.MaxSamples);
        for (var channel = 0; channel < 24; channel++)
        {
            block.Fill(channel).Fill(channel);
        }

        block.SetCount(encoder.MaxSamples);
        var frame = new byte[FrameHead.MaxLength];
        var length = encoder.Samples(frame, block, 0, block.Count, 0);
        var (decoder, run) = (new FrameDecoder(new()), new SampleRun());
        _ = decoder.Feed(frame.AsSpan(0, length));
        Assert.Equal(DecodeState.Samples, decoder.Next(run));
        Assert.Equal(21, run.Count);
        Assert.All(Enumerable.Range(0, 24), channel => Assert.True(run[channel][..21].ToArray().All(value => value == channel)));
    }

    [Fact]
    public void A_sensor_at_its_rail_is_marked_and_the_others_are_not()
    {
        var head = new FrameHead { Kind = FrameKind.SeveralSamples, Sensors = 3, Axes = 4, Format = SampleFormat.Int16, RateMilliHz = 1000, Scale = 1, Rail = 100 };
        var block = new SampleBlock(3, 2);
        block.Fill(1)[1] = -150;
        block.SetCount(2);
        var frame = new byte[FrameHead.MaxLength];
        var length = new FrameEncoder(head).Samples(frame, block, 0, 2, 0);
        Assert.Equal((0, 0b010), (frame[3], frame[41]));
        var (decoder, run) = (new FrameDecoder(new()), new SampleRun());
        _ = decoder.Feed(frame.AsSpan(0, length));
        Assert.Equal(DecodeState.Samples, decoder.Next(run));
        Assert.All(run.Marks[..2].ToArray(), mark => Assert.Equal(SampleRun.ClippedMark(1, 3), mark));
        Assert.Equal(-100, run[1][1]);
    }

    [Fact]
    public void Any_change_of_any_one_byte_costs_that_frame_and_no_other()
    {
        var stream = new TestStream(axes: 4, sensors: 2, several: true);
        var frames = stream.Frames(24);
        byte[] good = [.. frames.SelectMany(f => f)];
        for (var position = frames[0].Length; position < frames[0].Length + frames[1].Length; position++)
        {
            for (var change = 1; change < 256; change++)
            {
                var bytes = good.ToArray();
                bytes[position] ^= (byte)change;
                var listener = new TestListener(channels: 2);
                listener.Hear(bytes);
                Assert.Equal([TestStream.PerFrame], listener.Gaps);
                Assert.Equal(23 * TestStream.PerFrame, listener.Received);
                Assert.NotEmpty(listener.Counters.Rejected);
            }
        }
    }

    [Theory]
    [InlineData(40, 0)]
    [InlineData(40, 9)]
    [InlineData(41, 0b100)]
    [InlineData(3, 1)]
    [InlineData(2, 0x41)]
    public void A_frame_that_no_version_knows_is_turned_down_by_its_form(int at, byte value)
    {
        var bytes = new TestStream(axes: 4, sensors: 2, several: true).Samples().ToArray();
        bytes[at] = value;
        System.Buffers.Binary.BinaryPrimitives.WriteUInt16LittleEndian(bytes.AsSpan(bytes.Length - 2), Crc16.Of(bytes.AsSpan(0, bytes.Length - 2)));
        var listener = new TestListener(channels: 2);
        listener.Hear([.. new TestStream(axes: 4, sensors: 2, several: true).Announcement(), .. bytes]);
        listener.Break();
        Assert.Equal(0, listener.Received);
        Assert.Equal(1, listener.Rejected("frame"));
    }
}
