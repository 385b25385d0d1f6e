using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Sources;
using StrokeWatch.Sensors.Decoding;
using StrokeWatch.Sensors.Frames;
using Xunit;

namespace StrokeWatch.Tests.Sensors.Frames;

/// <summary>Version 3 of the framed protocol: the supply's voltage with each sample.</summary>
[Collection(Undisturbed.Name)]
public sealed class SupplyFramesTests
{
    private const float VoltsPerCount = 0.03125f;

    [Theory]
    [InlineData(1, 7, 1)]
    [InlineData(2, 5, 3)]
    [InlineData(3, 4, 8)]
    public void Voltages_and_accelerations_come_back_as_they_were_sent(int format, byte axes, int sensors)
    {
        var (head, block) = (Head((SampleFormat)format, axes, sensors), Block(sensors * FrameAxes.Count(axes), 12));
        var (decoder, run) = (new FrameDecoder(new()), new SampleRun());
        _ = decoder.Feed(Frame(head, block));
        Assert.Equal(DecodeState.Samples, decoder.Next(run));
        Assert.Equal((12, true, sensors, 32767.0 * VoltsPerCount), (run.Count, run.HasSupply, run.Sensor!.Sensors, run.Sensor.SupplyFullScale));
        Assert.Equal(block.Supply.ToArray(), run.Supply[..12].ToArray());
        Assert.All(Enumerable.Range(0, block.Channels), channel => Assert.Equal(block[channel].ToArray(), run[channel][..12].ToArray()));
    }

    [Fact]
    public void A_voltage_that_is_missing_costs_no_sample_and_an_acceleration_that_is_missing_the_frame()
    {
        var (head, block) = (Head(SampleFormat.Float32, 4, 1), Block(1, 3));
        block.FillSupply()[1] = double.NaN;
        var counters = new SourceCounters();
        var (decoder, run) = (new FrameDecoder(counters), new SampleRun());
        _ = decoder.Feed(Frame(head, block));
        Assert.Equal(DecodeState.Samples, decoder.Next(run));
        Assert.Equal([false, true, false], run.Supply[..3].ToArray().Select(double.IsNaN));
        block.Fill(0)[1] = double.NaN;
        _ = decoder.Feed(Frame(head, block));
        Assert.Equal(DecodeState.None, decoder.Next(run));
        Assert.Equal(1, counters.Rejected["range"]);
    }

    [Fact]
    public void A_device_that_changes_its_version_is_described_anew_and_no_voltage_outlives_it()
    {
        var (decoder, run) = (new FrameDecoder(new()), new SampleRun());
        _ = decoder.Feed(Frame(Head(SampleFormat.Int16, 4, 1) with { Start = 1 }, Block(1, 4)));
        Assert.Equal(DecodeState.Samples, decoder.Next(run));
        var one = run.Sensor;
        _ = decoder.Feed(Frame(Head(SampleFormat.Int16, 4, 1) with { Start = 2, Kind = FrameKind.Samples }, Block(1, 4)));
        Assert.Equal(DecodeState.Samples, decoder.Next(run));
        Assert.NotSame(one, run.Sensor);
        Assert.Equal((false, null), (run.HasSupply, run.Sensor!.SupplyFullScale));
    }

    [Fact]
    public void Any_change_of_any_one_byte_costs_the_frame()
    {
        var good = Frame(Head(SampleFormat.Int16, 5, 2), Block(4, 3));
        for (var position = 0; position < good.Length; position++)
        {
            for (var change = 1; change < 256; change++)
            {
                var bytes = good.ToArray();
                bytes[position] ^= (byte)change;
                var (decoder, run) = (new FrameDecoder(new()), new SampleRun());
                _ = decoder.Feed(bytes);
                decoder.Break();
                Assert.Equal(DecodeState.None, decoder.Next(run));
            }
        }
    }

    [Theory]
    [InlineData(0f, 100u)]
    [InlineData(-1f, 100u)]
    [InlineData(float.NaN, 100u)]
    [InlineData(1f, 0u)]
    public void A_scale_or_rail_that_cannot_be_is_turned_down(float scale, uint rail)
    {
        var counters = new SourceCounters();
        var (decoder, run) = (new FrameDecoder(counters), new SampleRun());
        var frame = Frame(Head(SampleFormat.Int16, 4, 1), Block(1, 2));
        var head = FrameHead.Read(frame) with { SupplyScale = scale, SupplyRail = rail };
        FrameEncoder.Seal(frame, head);
        _ = decoder.Feed(frame);
        Assert.Equal(DecodeState.None, decoder.Next(run));
        Assert.Equal(1, counters.Rejected["range"]);
    }

    private static FrameHead Head(SampleFormat format, byte axes, int sensors) => new()
    {
        Kind = FrameKind.SupplySamples,
        Sensors = (byte)sensors,
        Axes = axes,
        Format = format,
        RateMilliHz = 3_200_000,
        Scale = 0.0625f,
        Rail = 32767,
        SupplyScale = VoltsPerCount,
        SupplyRail = 32767,
    };

    private static SampleBlock Block(int channels, int count)
    {
        var block = new SampleBlock(channels, 32) { HasSupply = true };
        for (var i = 0; i < count; i++)
        {
            for (var channel = 0; channel < channels; channel++)
            {
                block.Fill(channel)[i] = TestStream.Value(i, channel);
            }

            block.FillSupply()[i] = (997 * i - 5000) * VoltsPerCount;
        }

        block.SetCount(count);
        return block;
    }

    private static byte[] Frame(FrameHead head, SampleBlock block)
    {
        var frame = new byte[FrameHead.MaxLength];
        return frame[..new FrameEncoder(head).Samples(frame, block, 0, block.Count, 1000)];
    }
}
