using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Samples.Sources;

namespace StrokeWatch.Benchmarks.Fuzzing;

/// <summary>The readers of capture files, read to their end with options drawn; what cannot be read must be told in one line.</summary>
internal sealed class CaptureTarget(string end) : IFuzzTarget
{
    private const int Head = 6000;

    /// <summary>Of text no more samples can come than it has bytes, of WAV no more than twice as many (8 bits, packed), whatever its head says.</summary>
    private const int MostSamplesAByte = 2;

    private static readonly string[] Columns = ["1", "2", "x=2,z=3", "t=1,x=2", "t=none", "z=x_g"];

    public IReadOnlyList<byte[]> Corpus { get; } = FuzzFiles.Of("sim-data", "." + end, Head);

    public IReadOnlyList<string> Words { get; } = end == "wav"
        ? ["RIFF", "RF64", "WAVE", "fmt ", "data", "LIST", "ds64", "fact", "INFO", "ICMT", "strk", "\0\0\0\0", "\u0001\0", "\u0003\0", "\0\0"]
        : ["nan", "inf", "1e308", "-", "\"", "\"\"", ",", ";", "\t", "\n", "\r", "\r\n", "# fs=100", "rate_hz: 5", "unit: g", "t_s", "x_g", "time", "2024-05-01T10:00:00Z", "10:00:00.5", "1,5", "9999999999999999999999", "1e-400", "\ufeff", "\0", "[m/s²]"];

    public int Longest => 16_000;

    public bool Take(byte[] input, Random random)
    {
        CaptureOptions.TryParseColumns(Columns[random.Next(Columns.Length)], out var columns, out _);
        var options = new CaptureOptions
        {
            Unit = random.Next(4) == 0 ? (AccelerationUnit)random.Next(6) : null,
            Columns = random.Next(4) == 0 ? columns : null,
            RateHz = random.Next(4) == 0 ? 1000 : null,
            FullScaleG = random.Next(4) == 0 ? 16 : null,
            SkipRows = random.Next(8) == 0 ? random.Next(5) : null,
            TimeUnit = random.Next(8) == 0 ? (TimeUnit)random.Next(4) : null,
        };
        try
        {
            using var source = CaptureFile.Open(new CaptureBytes($"cullet.{end}", () => new MemoryStream(input, writable: false)), options);
            var block = new SampleBlock(source.Info.Axes.Count, 1 + random.Next(500));
            var samples = 0L;
            while (source.Read(block) == SourceState.Samples)
            {
                samples += block.Count;
                if (block.Count < 1 || samples > MostSamplesAByte * (input.Length + 1L) || block.MissingBefore < 0 || !double.IsFinite(block.StartSeconds))
                {
                    throw new InvalidOperationException($"a block of {block.Count} after {samples} samples of {input.Length} bytes, at {block.StartSeconds} s, {block.MissingBefore} missing");
                }

                for (var channel = 0; channel < block.Channels; channel++)
                {
                    if (block[channel].ContainsAnyExceptInRange(double.MinValue, double.MaxValue))
                    {
                        throw new InvalidOperationException("a sample is no number");
                    }
                }
            }

            _ = source.Summary;
            return samples > 0;
        }
        catch (CaptureException refused) when (refused.Message is { Length: > 0 } && !refused.Message.Contains('\n', StringComparison.Ordinal))
        {
            return false;
        }
    }

    public void Dispose()
    {
    }
}
