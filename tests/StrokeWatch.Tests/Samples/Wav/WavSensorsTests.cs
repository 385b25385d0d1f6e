using System.Buffers.Binary;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Sources;
using StrokeWatch.Samples.Wav;
using StrokeWatch.Tests.Samples.Captures;
using Xunit;

namespace StrokeWatch.Tests.Samples.Wav;

public sealed class WavSensorsTests
{
    private static readonly SensorPlace[] Places = [SensorPlace.Front, SensorPlace.Front, SensorPlace.Rear, SensorPlace.Rear, SensorPlace.Rear, SensorPlace.Body, SensorPlace.Body];
    private static readonly Axis[] Axes = [Axis.X, Axis.Z, Axis.X, Axis.Y, Axis.Z, Axis.Z, Axis.X];

    private static SensorChoice Channels(SensorPlace place, string channels) => new(place, channels.Length == 0 ? [] : Reading.Columns(channels).Columns!);

    /// <summary>Writes seven channels whose value is the channel's number in g.</summary>
    private static byte[] Written()
    {
        using var stream = new MemoryStream();
        using (var writer = new WavCaptureWriter(stream, Axes, 1000, 16, Places))
        {
            var block = new SampleBlock(7, 10) { RateHz = 1000 };
            for (var channel = 0; channel < 7; channel++)
            {
                block.Fill(channel).Fill((channel + 1) * Reading.G);
            }

            block.SetCount(10);
            writer.Write(block);
        }

        return stream.ToArray();
    }

    /// <summary>Makes 16-bit integers of some channels with nothing noted beside them.</summary>
    private static byte[] Plain(int channels, params short[] frame)
    {
        byte[] format = [1, 0, (byte)channels, 0, 0xE8, 3, 0, 0, 0, 0, 0, 0, (byte)(2 * channels), 0, 16, 0];
        BinaryPrimitives.WriteInt32LittleEndian(format.AsSpan(8), 2000 * channels);
        byte[] data = [.. frame.SelectMany(BitConverter.GetBytes)];
        byte[] Chunk(string id, byte[] content) => [.. System.Text.Encoding.ASCII.GetBytes(id), .. BitConverter.GetBytes(content.Length), .. content];
        byte[] all = [.. "WAVE"u8, .. Chunk("fmt ", format), .. Chunk("data", data)];
        return [.. "RIFF"u8, .. BitConverter.GetBytes(all.Length), .. all];
    }

    [Fact]
    public void Seven_channels_that_the_writer_noted_are_found_by_place()
    {
        var reading = Reading.OfBytes(Written(), new() { Sensors = [Channels(SensorPlace.Body, ""), Channels(SensorPlace.Front, ""), Channels(SensorPlace.Rear, "")] });
        Assert.Equal([6, 7, 1, 2, 3, 4, 5], reading.Values.Select(values => Math.Round(values[0] / Reading.G, 5)));
        Assert.Equal([Axis.Z, Axis.X, Axis.X, Axis.Z, Axis.X, Axis.Y, Axis.Z], reading.Info.Axes);
        Assert.Equal([SensorPlace.Body, SensorPlace.Body, SensorPlace.Front, SensorPlace.Front, SensorPlace.Rear, SensorPlace.Rear, SensorPlace.Rear], reading.Info.Places);
        Assert.Empty(reading.Info.Guesses);
    }

    [Fact]
    public void Without_a_list_seven_channels_are_an_error_that_says_what_to_do()
    {
        var error = Assert.Throws<CaptureException>(() => Reading.OfBytes(Written())).Message;
        Assert.Contains("has 7 channels, of the sensors front, rear, body; list the sensors in the feeder file with [[sensors]]", error, StringComparison.Ordinal);
        Assert.Equal([Axis.X, Axis.Z], Reading.OfBytes(Written(), Reading.Columns("x=1,z=2")).Info.Axes);
    }

    [Theory]
    [InlineData("1,2,3", "4,5,6", null)]
    [InlineData("1,2,3", "", "does not say which of its 6 channels are of the sensor rear")]
    [InlineData("1,2,3", "3,4", "channel 3 is taken for two sensors")]
    [InlineData("1,2,3", "7", "has no channel '7'; it has 6")]
    [InlineData("x=1,z=2", "z=5,x=6", null)]
    public void Channels_are_given_by_number(string front, string rear, string? words)
    {
        var options = new CaptureOptions { FullScaleG = 32, Sensors = [Channels(SensorPlace.Front, front), Channels(SensorPlace.Rear, rear)] };
        var bytes = Plain(6, 1024, 2048, 3072, 4096, 5120, 6144);
        if (words is not null)
        {
            Assert.Contains(words, Assert.Throws<CaptureException>(() => Reading.OfBytes(bytes, options)).Message, StringComparison.Ordinal);
            return;
        }

        var reading = Reading.OfBytes(bytes, options);
        Assert.Equal(front.Length == 5 ? [1, 2, 3, 4, 5, 6] : [1, 2, 5, 6], reading.Values.Select(values => Math.Round(values[0] / Reading.G, 6)));
    }

    [Fact]
    public void Sixty_four_channels_are_read_and_one_more_is_too_many()
    {
        var options = new CaptureOptions { FullScaleG = 32, Sensors = [Channels(SensorPlace.Front, "62,63,64")] };
        Assert.Equal(64, Math.Round(Reading.OfBytes(Plain(64, [.. Enumerable.Range(1, 64).Select(i => (short)(512 * i - 1))]), options).Values[2][0] / Reading.G * 2, 2));
        Assert.Contains("at most 64", Assert.Throws<CaptureException>(() => Reading.OfBytes(Plain(65, new short[65]), options)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void The_end_of_the_numbers_range_is_said_so_that_a_rail_can_be_told_to_a_sensor()
    {
        Assert.Equal(32 * Reading.G * 32767 / 32768, Reading.OfBytes(Plain(3, 1, 2, 3), new() { FullScaleG = 32 }).Info.NumberRail!.Value, 1e-9);
        Assert.Null(Reading.OfBytes(Written(), Reading.Columns("x=1")).Info.NumberRail);
    }
}
