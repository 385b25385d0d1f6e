using System.Buffers.Binary;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Sensors.Decoding;
using StrokeWatch.Sensors.Frames;
using Xunit;

namespace StrokeWatch.Tests.Sensors.Frames;

public sealed class FrameRangeTests
{
    public static TheoryData<string, int, byte[]> Unlikely => new()
    {
        { "frame", 2, [0x21] },
        { "frame", 2, [0x13] },
        { "frame", 3, [0x04] },
        { "frame", 10, [0x00] },
        { "frame", 10, [0x08] },
        { "frame", 11, [0x00] },
        { "frame", 11, [0x04] },
        { "length", 4, [0x29, 0x00] },
        { "length", 4, [0x2B, 0x04] },
        { "length", 4, [0xFF, 0xFF] },
        { "length", 4, [0x2B, 0x00] },
        { "range", 12, [0, 0, 0, 0] },
        { "range", 12, [0xFF, 0xFF, 0xFF, 0xFF] },
        { "range", 16, [0, 0, 0, 0] },
        { "range", 16, [0, 0, 0xC0, 0x7F] },
        { "range", 16, [0, 0, 0x80, 0x7F] },
        { "range", 16, [0, 0, 0x80, 0xBF] },
        { "range", 20, [0, 0, 0, 0] },
        { "range", 32, [0, 0, 0, 0, 0, 0, 0, 0xFF] },
        { "range", 24, [0, 0, 0, 0, 0, 0, 0, 0xFF] },
    };

    [Theory]
    [MemberData(nameof(Unlikely))]
    public void A_frame_that_cannot_be_is_turned_down_under_its_reason(string reason, int at, byte[] bytes)
    {
        var stream = new TestStream();
        var listener = new TestListener();
        listener.Hear(stream.Samples());
        var frame = stream.Samples();
        bytes.CopyTo(frame, at);
        BinaryPrimitives.WriteUInt16LittleEndian(frame.AsSpan(frame.Length - 2), Crc16.Of(frame.AsSpan(0, frame.Length - 2)));
        listener.Hear([.. frame, .. stream.Frames(20).SelectMany(f => f)]);

        Assert.Equal(1, listener.Rejected(reason));
        Assert.Single(listener.Counters.Rejected);
        Assert.Equal([TestStream.PerFrame], listener.Gaps);
    }

    [Theory]
    [InlineData(float.NaN)]
    [InlineData(float.PositiveInfinity)]
    public void A_value_that_is_no_number_turns_the_frame_down(float value)
    {
        var stream = new TestStream(SampleFormat.Float32);
        var listener = new TestListener();
        listener.Hear(stream.Samples());
        var frame = stream.Samples();
        BinaryPrimitives.WriteSingleLittleEndian(frame.AsSpan(FrameHead.Size + 16), value);
        BinaryPrimitives.WriteUInt16LittleEndian(frame.AsSpan(frame.Length - 2), Crc16.Of(frame.AsSpan(0, frame.Length - 2)));
        listener.Hear([.. frame, .. stream.Samples()]);
        Assert.Equal(1, listener.Rejected("range"));
        Assert.Equal([TestStream.PerFrame], listener.Gaps);
    }

    [Fact]
    public void Samples_near_the_rail_are_marked_and_a_frame_that_says_so_is_marked_whole()
    {
        var pattern = new FrameHead { Axes = 1, Format = SampleFormat.Int16, RateMilliHz = 1000, Scale = 1, Rail = 1000 };
        var block = new SampleBlock(1, 3);
        var frame = new byte[FrameHead.MaxLength];
        var encoder = new FrameEncoder(pattern);
        var run = new SampleRun();
        var decoder = new FrameDecoder(new());

        Send(979, -980, 0);
        Assert.Equal([SampleMarks.None, SampleMarks.Clipped, SampleMarks.None], run.Marks[..3].ToArray());
        Send(1500, 0, 0);
        Assert.Equal(1000, run[0][0]);
        Assert.Equal([SampleMarks.Clipped, SampleMarks.Clipped, SampleMarks.Clipped], run.Marks[..3].ToArray());
        Send(1, 2, 3);
        Assert.Equal([SampleMarks.None, SampleMarks.None, SampleMarks.None], run.Marks[..3].ToArray());

        void Send(params double[] values)
        {
            values.CopyTo(block.Fill(0));
            block.SetCount(values.Length);
            _ = decoder.Feed(frame.AsSpan(0, encoder.Samples(frame, block, 0, values.Length, encoder.Counter * 1000)));
            Assert.Equal(DecodeState.Samples, decoder.Next(run));
        }
    }
}
