using System.Globalization;
using System.Text;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Csv;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Samples.Sources;
using StrokeWatch.Samples.Wav;
using Xunit;

namespace StrokeWatch.Tests.Samples.Captures;

/// <summary>Random and damaged captures: seeded, and the seed is in the message of a failure.</summary>
[Collection(Undisturbed.Name)]
public sealed class CaptureFuzzTests
{
    private static readonly string[] Pieces =
    [
        "1", "-2.5", "0.001", "1e3", "nan", "inf", "x", "t_s", "x_g", "# fs=100", "rate_hz: 5", "\"", "1,5", "2024-05-01T10:00:00Z", "10:00:00.5",
        ",", ",", ",", ";", "\t", " ", "\n", "\n", "\n", "\r\n", "unit: g", "[", "m/s²", "9999999999999999999999", "1e-400", "+", ".", "e",
    ];

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void Rubbish_never_ends_in_anything_but_one_clear_line(int kind)
    {
        for (var seed = 0; seed < 400; seed++)
        {
            var random = new Random(seed);
            var bytes = Make(kind, random);
            try
            {
                Reading.OfBytes(bytes, Options(random), capacity: 1 + random.Next(200));
            }
            catch (CaptureException fault)
            {
                Assert.True(fault.Message.Length > 0 && !fault.Message.Contains('\n', StringComparison.Ordinal), $"kind {kind}, seed {seed}: {fault.Message}");
            }
            catch (Exception fault)
            {
                Assert.Fail($"kind {kind}, seed {seed}: {fault}");
            }
        }
    }

    [Fact]
    public void Whatever_is_written_as_text_is_read_back_also_where_people_write_a_decimal_comma()
    {
        var culture = CultureInfo.CurrentCulture;
        try
        {
            var comma = (CultureInfo)CultureInfo.InvariantCulture.Clone();
            comma.NumberFormat.NumberDecimalSeparator = ",";
            comma.NumberFormat.NumberGroupSeparator = ".";
            comma.NumberFormat.NegativeSign = "−";
            CultureInfo.CurrentCulture = comma;
            Assert.Equal("1,5", 1.5.ToString());
            for (var seed = 0; seed < 25; seed++)
            {
                RoundTrip(seed, text: true);
                RoundTrip(seed, text: false);
            }

            Assert.Contains("--rate-hz: -1.5 is", Reading.ErrorOf("x", new() { RateHz = -1.5 }), StringComparison.Ordinal);
            Assert.Equal("3,5".Length, CaptureOptions.TryParseColumns("3,5", out var columns, out _) ? columns.Count + 1 : 0);
        }
        finally
        {
            CultureInfo.CurrentCulture = culture;
        }
    }

    private static void RoundTrip(int seed, bool text)
    {
        var random = new Random(seed);
        var axes = new[] { Axis.X, Axis.Y, Axis.Z }.OrderBy(_ => random.Next()).Take(1 + random.Next(3)).ToArray();
        var rate = 500 + (9000 * random.NextDouble());
        var bytes = new MemoryStream();
        var expected = new List<double>();
        var gaps = new List<(int, long)>();
        long index = 0;
        using (ICaptureWriter writer = text ? new CsvCaptureWriter(bytes, axes, rate) : new WavCaptureWriter(bytes, axes, rate))
        {
            var block = new SampleBlock(axes.Length, 300);
            for (var b = 0; b < 12; b++)
            {
                block.Clear();
                (block.GapBefore, block.RateHz) = (b > 0 && random.Next(4) == 0, rate);
                block.MissingBefore = block.GapBefore ? 1 + random.Next(1000) : 0;
                if (block.GapBefore)
                {
                    gaps.Add((expected.Count, block.MissingBefore));
                }

                index += block.MissingBefore;
                block.StartSeconds = index / rate;
                var count = 20 + random.Next(280);
                for (var i = 0; i < count; i++)
                {
                    for (var c = 0; c < axes.Length; c++)
                    {
                        block.Fill(c)[i] = (random.NextDouble() - 0.5) * 300;
                    }

                    expected.Add(block.Fill(0)[i]);
                }

                index += count;
                block.SetCount(count);
                writer.Write(block);
            }
        }

        var reading = Reading.OfBytes(bytes.ToArray(), capacity: 1 + random.Next(400));
        Assert.True(axes.SequenceEqual(reading.Info.Axes), $"seed {seed}");
        Assert.Equal(rate, reading.Info.RateHz!.Value, text ? rate * 1e-6 : 1e-9);
        Assert.Equal(gaps, reading.Blocks.Where(b => b.Gap).Select(b => (b.First, b.Missing)));
        Assert.Equal(expected.Count, reading.Values[0].Length);
        Assert.All(expected.Zip(reading.Values[0]), p => Assert.Equal(p.First, p.Second, text ? 1e-6 : 2e-5));
        Assert.Empty(reading.Counters.Rejected);
        Assert.Empty(reading.Info.Guesses);
    }

    private static byte[] Make(int kind, Random random)
    {
        var text = new StringBuilder();
        switch (kind)
        {
            case 0:
                var noise = new byte[random.Next(3000)];
                random.NextBytes(noise);
                return random.Next(3) switch { 0 => noise, 1 => [.. "RIFF"u8, 0, 0, 0, 0, .. "WAVEfmt "u8, .. noise], _ => [0xFF, 0xFE, .. noise] };
            case 1:
                for (var i = random.Next(600); i > 0; i--)
                {
                    text.Append(Pieces[random.Next(Pieces.Length)]);
                }

                return Encoding.UTF8.GetBytes(text.ToString());
            case 2:
                text.Append("t_s,x_g,z_g\n");
                for (var i = 0; i < 100; i++)
                {
                    text.Append(CultureInfo.InvariantCulture, $"{i / 1000.0},{random.NextDouble()},{random.NextDouble()}\n");
                }

                return Damage(Encoding.UTF8.GetBytes(text.ToString()), random);
            default:
                var bytes = new MemoryStream();
                using (var writer = new WavCaptureWriter(bytes, [Axis.X, Axis.Z], 1000, 16, random.Next(2) == 0 ? 1 : uint.MaxValue))
                {
                    var block = new SampleBlock(2, 200);
                    block.SetCount(200);
                    writer.Write(block);
                    block.GapBefore = true;
                    writer.Write(block);
                }

                return Damage(bytes.ToArray(), random);
        }
    }

    private static byte[] Damage(byte[] bytes, Random random)
    {
        for (var i = random.Next(12); i >= 0; i--)
        {
            bytes[random.Next(2) == 0 ? random.Next(bytes.Length) : random.Next(Math.Min(200, bytes.Length))] = (byte)random.Next(256);
        }

        return bytes[..(random.Next(3) == 0 ? random.Next(bytes.Length) : bytes.Length)];
    }

    private static CaptureOptions Options(Random random)
    {
        CaptureOptions.TryParseColumns(new[] { "1", "2", "x=2,z=3", "t=1,x=2", "t=none", "z=x_g" }[random.Next(6)], out var columns, out _);
        return new()
        {
            Unit = random.Next(3) == 0 ? (AccelerationUnit)random.Next(6) : null,
            Columns = random.Next(2) == 0 ? columns : null,
            RateHz = random.Next(3) == 0 ? 1000 : null,
            FullScaleG = random.Next(2) == 0 ? 16 : null,
            CountsPerG = random.Next(4) == 0 ? 1000 : null,
            SkipRows = random.Next(4) == 0 ? random.Next(5) : null,
            TimeUnit = random.Next(4) == 0 ? (TimeUnit)random.Next(4) : null,
        };
    }
}
