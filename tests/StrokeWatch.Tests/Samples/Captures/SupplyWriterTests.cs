using System.Buffers.Binary;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Csv;
using StrokeWatch.Samples.Sources;
using StrokeWatch.Samples.Wav;
using Xunit;

namespace StrokeWatch.Tests.Samples.Captures;

public sealed class SupplyWriterTests
{
    private static readonly Axis[] Axes = [Axis.X, Axis.Z];

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void What_a_writer_wrote_a_reader_finds_with_its_gap_and_its_missing_voltage(bool text)
    {
        var bytes = Written(text, supply: true);
        using var source = Open(bytes);
        Assert.True(source.Info.HasSupply);
        Assert.Equal(Axes, source.Info.Axes);
        var block = new SampleBlock(2, 64);
        Assert.Equal(SourceState.Samples, source.Read(block));
        Assert.Equal(8, block.Count);
        for (var i = 0; i < 8; i++)
        {
            Assert.Equal(0.25 * i, block[0][i] / Reading.G, 6);
            Assert.Equal(i == 3 ? double.NaN : 100 + i, block.Supply[i], 4);
        }

        Assert.Equal(SourceState.Samples, source.Read(block));
        Assert.Equal((true, 4L, 4), (block.GapBefore, block.MissingBefore, block.Count));
        Assert.Equal(100, block.Supply[0], 4);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Without_a_voltage_a_file_is_what_it_was(bool text)
    {
        var plain = System.Text.Encoding.Latin1.GetString(Written(text, supply: false));
        Assert.DoesNotContain("supply", plain, StringComparison.Ordinal);
        using var source = Open(Written(text, supply: false));
        var block = new SampleBlock(2, 64);
        Assert.Equal(SourceState.Samples, source.Read(block));
        Assert.False(source.Info.HasSupply);
        Assert.True(block.Supply.IsEmpty);
    }

    [Fact]
    public void A_channel_of_a_foreign_file_of_integers_is_the_supplys_by_option_in_shares_of_its_full_scale()
    {
        var bytes = Integers(3, 16384, 8192, -8192);
        using var source = Open(bytes, new() { FullScaleG = 16, SupplyChannel = 2 });
        Assert.True(source.Info.HasSupply);
        Assert.Equal([Axis.X, Axis.Z], source.Info.Axes);
        var block = new SampleBlock(2, 64);
        Assert.Equal(SourceState.Samples, source.Read(block));
        Assert.Equal((8 * Reading.G, 0.25, -4 * Reading.G), (block[0][0], block.Supply[0], block[1][0]));
        Assert.InRange(source.Info.SupplyRail!.Value, 0.9999, 1);
    }

    [Fact]
    public void Four_channels_are_three_axes_and_a_voltage()
    {
        using var source = Open(Integers(4, 1, 2, 3, 4), new() { FullScaleG = 16, SupplyChannel = 4 });
        Assert.Equal([Axis.X, Axis.Y, Axis.Z], source.Info.Axes);
    }

    [Theory]
    [InlineData(2, 3, null, "--supply-channel says 3")]
    [InlineData(1, 1, null, "has one channel, and that is the supply's voltage")]
    [InlineData(2, 2, "x=1,z=2", "channel 2 is the supply's voltage and cannot be an axis as well")]
    public void A_wrong_channel_is_one_clear_line(int channels, int supply, string? columns, string words)
    {
        var options = (columns is null ? new CaptureOptions() : Reading.Columns(columns)) with { FullScaleG = 16, SupplyChannel = supply };
        var error = Assert.Throws<CaptureException>(() => Open(Integers(channels, new short[channels]), options));
        Assert.Contains(words, error.Message, StringComparison.Ordinal);
        Assert.DoesNotContain('\n', error.Message);
    }

    private static ICaptureSource Open(byte[] bytes, CaptureOptions? options = null) =>
        CaptureFile.Open(new CaptureBytes("soda-ash", () => new MemoryStream(bytes, writable: false)), options ?? new());

    /// <summary>Writes eight samples, loses four and writes four more; the fourth lacks its voltage.</summary>
    private static byte[] Written(bool text, bool supply)
    {
        using var stream = new MemoryStream();
        using (ICaptureWriter writer = text ? new CsvCaptureWriter(stream, Axes, 1000, supply: supply) : new WavCaptureWriter(stream, Axes, 1000, 16, supply: supply))
        {
            foreach (var (first, count) in ((int, int)[])[(0, 8), (12, 4)])
            {
                var block = new SampleBlock(2, count) { RateHz = 1000, StartSeconds = first / 1000.0, HasSupply = supply, GapBefore = first > 0, MissingBefore = first > 0 ? 4 : 0 };
                for (var i = 0; i < count; i++)
                {
                    (block.Fill(0)[i], block.Fill(1)[i]) = (0.25 * i * Reading.G, Reading.G);
                    block.FillSupply()[i] = first == 0 && i == 3 ? double.NaN : 100 + i;
                }

                block.SetCount(count);
                writer.Write(block);
            }
        }

        return stream.ToArray();
    }

    private static byte[] Integers(int channels, params short[] frame)
    {
        byte[] format = [1, 0, (byte)channels, 0, 0xE8, 3, 0, 0, 0, 0, 0, 0, (byte)(2 * channels), 0, 16, 0];
        BinaryPrimitives.WriteInt32LittleEndian(format.AsSpan(8), 2000 * channels);
        byte[] data = [.. frame.SelectMany(BitConverter.GetBytes)];
        byte[] Chunk(string id, byte[] content) => [.. System.Text.Encoding.ASCII.GetBytes(id), .. BitConverter.GetBytes(content.Length), .. content];
        byte[] all = [.. "WAVE"u8, .. Chunk("fmt ", format), .. Chunk("data", data)];
        return [.. "RIFF"u8, .. BitConverter.GetBytes(all.Length), .. all];
    }
}
