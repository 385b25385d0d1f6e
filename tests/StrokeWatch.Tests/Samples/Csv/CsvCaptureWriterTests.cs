using System.Text;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Csv;
using Xunit;

namespace StrokeWatch.Tests.Samples.Csv;

public sealed class CsvCaptureWriterTests
{
    [Fact]
    public void Rows_carry_time_and_g_with_nine_digits_and_a_gap_is_a_jump_of_time()
    {
        var bytes = new MemoryStream();
        using (var writer = new CsvCaptureWriter(bytes, [Axis.X, Axis.Z], 1000))
        {
            var block = new SampleBlock(2, 3);
            double[] values = [0, 9.80665, -9.80665 / 3];
            values.CopyTo(block.Fill(0));
            values.Reverse().ToArray().CopyTo(block.Fill(1));
            block.SetCount(3);
            writer.Write(block);
            block.Clear();
            (block.GapBefore, block.MissingBefore, block.StartSeconds) = (true, 2, 0.005);
            block.Fill(0)[1] = double.NaN;
            block.SetCount(2);
            writer.Write(block);
            writer.Flush();
        }

        Assert.Equal(
            "t_s,x_g,z_g\n0.000000000,0,-0.333333333\n0.001000000,1,1\n0.002000000,-0.333333333,0\n0.005000000,0,-0.333333333\n",
            Encoding.UTF8.GetString(bytes.ToArray()));
    }

    [Fact]
    public void Nonsense_is_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new CsvCaptureWriter(new MemoryStream(), [], 1000));
        Assert.Throws<ArgumentOutOfRangeException>(() => new CsvCaptureWriter(new MemoryStream(), [Axis.X], double.NaN));
        using var writer = new CsvCaptureWriter(new MemoryStream(), [Axis.X], 1000);
        Assert.Throws<ArgumentOutOfRangeException>(() => writer.Write(new SampleBlock(2, 1)));
        writer.Dispose();
        Assert.Throws<ObjectDisposedException>(() => writer.Write(new SampleBlock(1, 1)));
    }
}
