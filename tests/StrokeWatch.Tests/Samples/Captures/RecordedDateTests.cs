using System.Text;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Csv;
using StrokeWatch.Samples.Wav;
using Xunit;

namespace StrokeWatch.Tests.Samples.Captures;

public sealed class RecordedDateTests
{
    private static readonly DateTimeOffset Morning = new(2026, 3, 1, 8, 0, 0, TimeSpan.Zero);

    [Theory]
    [InlineData("sand-20260301T080000Z.wav")]
    [InlineData("2026-03-01T08-00-00Z_sand.csv")]
    [InlineData("sand 2026-03-01 0800.csv")]
    [InlineData("sand_2026-03-01_08-00.csv")]
    [InlineData("20260301T100000+0200.csv")]
    public void A_stamp_in_a_files_name_is_its_date(string name) => Assert.Equal(Morning, RecordedDate.OfName("folder-2020-01-01/" + name));

    [Theory]
    [InlineData("sand-2026-03-01.csv", 0)]
    [InlineData("sand-20260301.csv", 0)]
    [InlineData("99999999-2026-03-01-run7.csv", 0)]
    public void A_day_alone_is_its_midnight(string name, int hour) => Assert.Equal(Morning.AddHours(hour - 8), RecordedDate.OfName(name));

    [Theory]
    [InlineData("sand.csv")]
    [InlineData("run-12345678901.csv")]
    [InlineData("2026-13-45.csv")]
    public void Other_numbers_are_no_date(string name) => Assert.Null(RecordedDate.OfName(name));

    [Theory]
    [InlineData("# recorded: 2026-03-01T08:00:00Z\n")]
    [InlineData("# Recorded = 2026-03-01 09:00:00+01:00\n# operator: nobody\n")]
    [InlineData("\"recorded\",\"2026-03-01T08:00\"\n")]
    public void A_comment_of_a_text_capture_says_its_date(string head) =>
        Assert.Equal(Morning, Open(Encoding.UTF8.GetBytes(head + "t_s,x_g,z_g\n" + string.Concat(Enumerable.Range(0, 50).Select(i => FormattableString.Invariant($"{i * 0.001:F3},{i % 7},{i % 5}\n"))))));

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void What_a_writer_was_told_a_reader_finds(bool text)
    {
        Assert.Equal(Morning, Open(Written(text, Morning)));
        Assert.Null(Open(Written(text, null)));
    }

    [Fact]
    public void A_broadcast_waves_origination_date_is_read()
    {
        // EBU Tech 3285: description 256, originator 32, reference 32, date 10 and time 8 characters.
        var bext = new byte[602];
        Encoding.ASCII.GetBytes("2026-03-01", bext.AsSpan(320));
        Encoding.ASCII.GetBytes("08:00:00", bext.AsSpan(330));
        var wave = Written(false, null);
        byte[] chunk = [.. "bext"u8, .. BitConverter.GetBytes(bext.Length), .. bext];
        Assert.Equal(Morning, Open([.. wave[..12], .. chunk, .. wave[12..]]));
    }

    private static DateTimeOffset? Open(byte[] content)
    {
        using var source = CaptureFile.Open(new CaptureBytes("capture", () => new MemoryStream(content)), new());
        return source.Info.Recorded;
    }

    private static byte[] Written(bool text, DateTimeOffset? recorded)
    {
        var stream = new MemoryStream();
        Axis[] axes = [Axis.X, Axis.Z];
        using (ICaptureWriter writer = text ? new CsvCaptureWriter(stream, axes, 1000, null, recorded) : new WavCaptureWriter(stream, axes, 1000, 16, null, recorded))
        {
            var block = new SampleBlock(2, 50);
            for (var i = 0; i < 50; i++)
            {
                (block.Fill(0)[i], block.Fill(1)[i]) = (i % 7, i % 5);
            }

            block.SetCount(50);
            writer.Write(block);
        }

        return stream.ToArray();
    }
}
