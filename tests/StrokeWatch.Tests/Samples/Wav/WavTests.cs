using System.Buffers.Binary;
using System.Text;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Samples.Sources;
using StrokeWatch.Samples.Wav;
using StrokeWatch.Tests.Samples.Captures;
using Xunit;

namespace StrokeWatch.Tests.Samples.Wav;

/// <summary>Files are put together here byte by byte after the RIFF/WAVE layout (Multimedia Programming Interface 1.0, 1991; EBU Tech 3306 for RF64; from memory).</summary>
public sealed class WavTests
{
    [Theory]
    [InlineData(1, 16, false)]
    [InlineData(1, 24, false)]
    [InlineData(1, 32, false)]
    [InlineData(3, 32, false)]
    [InlineData(3, 64, false)]
    [InlineData(1, 24, true)]
    [InlineData(3, 32, true)]
    public void Every_encoding_gives_the_same_accelerations(int tag, int bits, bool extensible)
    {
        double[][] frames = [[0, 0.5, -0.25], [0.125, -0.5, 0.75], [-0.0625, 0.25, -1]];
        var reading = Reading.OfBytes(
            File(Format(tag, 3, 6400, bits, extensible), Data(tag, bits, frames)),
            new() { FullScaleG = tag == 1 ? 16 : null, Unit = AccelerationUnit.G });
        var scale = tag == 1 ? 16 * Reading.G : Reading.G;
        for (var axis = 0; axis < 3; axis++)
        {
            Assert.Equal(frames.Select(f => Math.Round(f[axis] * scale, 12)), reading.Values[axis].Select(v => Math.Round(v, 12)));
        }

        Assert.Equal([Axis.X, Axis.Y, Axis.Z], reading.Info.Axes);
        Assert.Equal((6400.0, RateOrigin.Header, "wav"), (reading.Info.RateHz!.Value, reading.Info.RateFrom, reading.Info.Format));
        Assert.Equal(tag == 1 ? [2] : [], reading.Clipped);
    }

    [Fact]
    public void Two_channels_are_x_and_z_and_one_is_x_and_both_are_guesses()
    {
        Assert.Equal([Axis.X, Axis.Z], Floats(2, [[1, 2]]).Info.Axes);
        var one = Floats(1, [[1]]);
        Assert.Equal([Axis.X], one.Info.Axes);
        Assert.Contains(one.Info.Guesses, g => g.StartsWith("channel 1 was taken for x", StringComparison.Ordinal));
        Assert.Contains(one.Info.Guesses, g => g.Contains("--unit", StringComparison.Ordinal));
    }

    [Fact]
    public void Of_more_channels_those_chosen_are_taken_and_without_a_choice_none()
    {
        double[][] frames = [[1, 2, 3, 4, 5]];
        var error = Assert.Throws<CaptureException>(() => Floats(5, frames)).Message;
        Assert.Contains("has 5 channels; list the sensors in the feeder file with [[sensors]]", error, StringComparison.Ordinal);
        var chosen = Floats(5, frames, Reading.Columns("z=5,x=2"));
        Assert.Equal([Axis.Z, Axis.X], chosen.Info.Axes);
        Assert.Equal([5, 2], chosen.Values.Select(v => Math.Round(v[0] / Reading.G, 6)));
        Assert.Contains("has no channel '6'", Assert.Throws<CaptureException>(() => Floats(5, frames, Reading.Columns("x=6"))).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Unknown_chunks_and_odd_lengths_are_passed_over()
    {
        var list = Chunk("LIST", Encoding.ASCII.GetBytes("INFOINAM\u0005\0\0\0sand\0"));
        var odd = Chunk("note", [1, 2, 3]);
        var reading = Reading.OfBytes(File(odd, list, Format(3, 1, 1000, 32), odd, Data(3, 32, [[1], [2], [3]]), odd), new() { Unit = AccelerationUnit.G });
        Assert.Equal(3, reading.Counters.Samples);
        Assert.Empty(reading.Counters.Rejected);
    }

    [Theory]
    [InlineData(0u)]
    [InlineData(uint.MaxValue)]
    [InlineData(4000u)]
    public void A_file_still_being_written_or_cut_off_is_read_as_far_as_it_goes(uint size)
    {
        var data = Data(3, 32, [[1, 2], [3, 4], [5, 6]]);
        BinaryPrimitives.WriteUInt32LittleEndian(data.AsSpan(4), size);
        var reading = Reading.OfBytes([.. File(Format(3, 2, 1000, 32), data), 9, 9, 9], new() { Unit = AccelerationUnit.G });
        Assert.Equal(3, reading.Counters.Samples);
        Assert.Equal(1, reading.Counters.Rejected[RejectReasons.Truncated]);
    }

    [Fact]
    public void A_sample_that_is_no_number_leaves_a_gap()
    {
        var reading = Floats(2, [[double.NaN, 0], [1, 1], [2, 2], [3, double.PositiveInfinity], [double.NaN, 4], [5, 5], [6, 6]]);
        Assert.Equal([1, 2, 5, 6], reading.Values[0].Select(v => Math.Round(v / Reading.G, 6)));
        Assert.Equal(3, reading.Counters.Rejected[RejectReasons.NanOrInfinite]);
        Assert.Equal((1L, 2L), (reading.Counters.Gaps, reading.Counters.MissingSamples));
        Assert.Equal(0.005, reading.Blocks[1].Start, 9);
    }

    [Theory]
    [InlineData("integers", "--full-scale-g")]
    [InlineData("codec", "WAV format 85")]
    [InlineData("head", "cut off within its header")]
    [InlineData("no data", "data chunk is missing")]
    [InlineData("empty", "holds no samples")]
    [InlineData("order", "before their format")]
    [InlineData("frame", "damaged")]
    [InlineData("big", "no little-endian WAVE")]
    public void What_cannot_be_read_is_named_in_one_line_with_what_to_do(string kind, string words)
    {
        byte[] bytes = kind switch
        {
            "integers" => File(Format(1, 1, 1000, 16), Data(1, 16, [[0.5]])),
            "codec" => File(Format(85, 1, 1000, 16), Data(1, 16, [[0.5]])),
            "head" => File(Format(3, 1, 1000, 32))[..30],
            "no data" => File(Format(3, 1, 1000, 32)),
            "empty" => File(Format(3, 1, 1000, 32), Data(3, 32, [])),
            "order" => File(Data(3, 32, [[1]]), Format(3, 1, 1000, 32)),
            "frame" => File(Chunk("fmt ", [3, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 32, 0]), Data(3, 32, [[1]])),
            _ => [.. "RIFX"u8, 0, 0, 0, 0, .. "WAVE"u8],
        };
        var line = Assert.Throws<CaptureException>(() => Reading.OfBytes(bytes)).Message;
        Assert.StartsWith("cullet.csv: ", line, StringComparison.Ordinal);
        Assert.Contains(words, line, StringComparison.Ordinal);
        Assert.DoesNotContain('\n', line);
    }

    [Theory]
    [InlineData(uint.MaxValue, "RIFF")]
    [InlineData(100L, "RF64")]
    public void What_is_written_is_read_back_with_rate_axes_full_scale_and_gaps(long wideFrom, string mark)
    {
        var bytes = new MemoryStream();
        using (var writer = new WavCaptureWriter(bytes, [Axis.Z, Axis.X], 3201.37, 16, wideFrom))
        {
            var block = new SampleBlock(2, 10);
            Fill(block, 10, i => i, gap: false, 0);
            writer.Write(block);
            Fill(block, 4, i => 100 + i, gap: true, 7);
            writer.Write(block);
            Fill(block, 5, i => i == 2 ? double.NaN : 200 + i, gap: false, 0);
            writer.Write(block);
            Fill(block, 3, i => 300 + i, gap: true, 0);
            writer.Write(block);
        }

        var written = bytes.ToArray();
        Assert.Equal(mark, Encoding.ASCII.GetString(written, 0, 4));
        var reading = Reading.OfBytes(written, capacity: 6);
        Assert.Equal([Axis.Z, Axis.X], reading.Info.Axes);
        Assert.Equal((3201.37, RateOrigin.Header), (reading.Info.RateHz!.Value, reading.Info.RateFrom));
        Assert.Equal(16 * Reading.G, reading.Info.FullScale!.Value, 9);
        Assert.Equal((AccelerationUnit.G, 0), (reading.Info.Unit, reading.Info.Guesses.Count));
        Assert.Equal(
            [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 100, 101, 102, 103, 200, 201, 203, 204, 300, 301, 302],
            reading.Values[0].Select(v => Math.Round(v, 4)));
        Assert.Equal(
            [(10, 7L), (16, 1L), (18, 0L)],
            reading.Blocks.Where(b => b.Gap).Select(b => (b.First, b.Missing)));
        Assert.Equal((21 - 3 + 8) / 3201.37, reading.Blocks[^1].Start, 9);
        Assert.Equal(Enumerable.Range(0, 21).Where(i => reading.Values[0][i] >= 0.999 * 16 * Reading.G), reading.Clipped);
        Assert.Empty(reading.Counters.Rejected);
    }

    [Fact]
    public void A_writer_that_dies_leaves_a_file_that_is_read_as_far_as_it_goes()
    {
        var bytes = new MemoryStream();
        var writer = new WavCaptureWriter(bytes, [Axis.X], 1000);
        var block = new SampleBlock(1, 10);
        Fill(block, 10, i => i, gap: false, 0);
        writer.Write(block);
        writer.Flush();
        var reading = Reading.OfBytes(bytes.ToArray());
        Assert.Equal(10, reading.Counters.Samples);
        Assert.Equal(1, reading.Counters.Rejected[RejectReasons.Truncated]);
        writer.Dispose();
    }

    [Fact]
    public void A_sparse_file_of_more_than_four_gibibytes_is_read_to_its_end()
    {
        var path = Path.Combine(Path.GetTempPath(), $"long-{Guid.NewGuid():N}.wav");
        try
        {
            // Many channels of which one is taken: the length is what is tested, and the disk holds next to nothing.
            const long frames = (1L << 23) + 12_345;
            const int channels = 64, frameBytes = 8 * channels;
            using (var file = new FileStream(path, FileMode.CreateNew))
            {
                var ds64 = new byte[28];
                BinaryPrimitives.WriteInt64LittleEndian(ds64.AsSpan(8), frames * frameBytes);
                var data = new byte[8];
                "data"u8.CopyTo(data);
                BinaryPrimitives.WriteUInt32LittleEndian(data.AsSpan(4), uint.MaxValue);
                file.Write([.. "RF64"u8, 255, 255, 255, 255, .. "WAVE"u8, .. Chunk("ds64", ds64), .. Format(3, channels, 10_000, 64), .. data]);
                file.Position += (frames * frameBytes) - 8;
                file.Write(BitConverter.GetBytes(1.5));
            }

            using var source = CaptureFile.Open(path, Reading.Columns("z=64") with { Unit = AccelerationUnit.G });
            Assert.Equal(frames, source.Summary.Samples);
            var block = new SampleBlock(1, 1 << 16);
            double last = 0;
            while (source.Read(block) == SourceState.Samples)
            {
                last = block[0][^1];
            }

            Assert.Equal((frames, 1.5 * Reading.G), (source.Counters.Samples, last));
            Assert.Empty(source.Counters.Rejected);
        }
        finally
        {
            System.IO.File.Delete(path);
        }
    }

    private static Reading Floats(int channels, double[][] frames, CaptureOptions? options = null) =>
        Reading.OfBytes(File(Format(3, channels, 1000, 32), Data(3, 32, frames)), options);

    private static void Fill(SampleBlock block, int count, Func<int, double> value, bool gap, long missing)
    {
        block.Clear();
        for (var i = 0; i < count; i++)
        {
            block.Fill(0)[i] = value(i);
            block.Fill(1 % block.Channels)[i] = value(i);
        }

        block.SetCount(count);
        (block.GapBefore, block.MissingBefore) = (gap, missing);
    }

    private static byte[] File(params byte[][] chunks)
    {
        var all = chunks.SelectMany(c => c).ToArray();
        var size = new byte[4];
        BinaryPrimitives.WriteInt32LittleEndian(size, all.Length + 4);
        return [.. "RIFF"u8, .. size, .. "WAVE"u8, .. all];
    }

    private static byte[] Chunk(string id, byte[] content)
    {
        var size = new byte[4];
        BinaryPrimitives.WriteInt32LittleEndian(size, content.Length);
        return [.. Encoding.ASCII.GetBytes(id), .. size, .. content, .. content.Length % 2 == 1 ? new byte[] { 0 } : []];
    }

    private static byte[] Format(int tag, int channels, int rate, int bits, bool extensible = false)
    {
        var format = new byte[extensible ? 40 : 16];
        BinaryPrimitives.WriteInt16LittleEndian(format, (short)(extensible ? -2 : tag));
        BinaryPrimitives.WriteInt16LittleEndian(format.AsSpan(2), (short)channels);
        BinaryPrimitives.WriteInt32LittleEndian(format.AsSpan(4), rate);
        BinaryPrimitives.WriteInt32LittleEndian(format.AsSpan(8), rate * channels * bits / 8);
        BinaryPrimitives.WriteInt16LittleEndian(format.AsSpan(12), (short)(channels * bits / 8));
        BinaryPrimitives.WriteInt16LittleEndian(format.AsSpan(14), (short)bits);
        if (extensible)
        {
            format[16] = 22;
            BinaryPrimitives.WriteInt16LittleEndian(format.AsSpan(18), (short)bits);
            BinaryPrimitives.WriteInt16LittleEndian(format.AsSpan(24), (short)tag);
        }

        return Chunk("fmt ", format);
    }

    private static byte[] Data(int tag, int bits, double[][] frames)
    {
        var bytes = new List<byte>();
        foreach (var value in frames.SelectMany(f => f))
        {
            var integer = (long)(value * Math.Pow(2, bits - 1));
            bytes.AddRange((tag, bits) switch
            {
                (1, 16) => BitConverter.GetBytes((short)integer),
                (1, 24) => BitConverter.GetBytes((int)integer)[..3],
                (1, _) => BitConverter.GetBytes((int)integer),
                (_, 32) => BitConverter.GetBytes((float)value),
                _ => BitConverter.GetBytes(value),
            });
        }

        return Chunk("data", [.. bytes]);
    }
}
