using System.Globalization;
using System.Text;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Samples.Sources;
using StrokeWatch.Sensors.Lines;

namespace StrokeWatch.Benchmarks.Fuzzing;

/// <summary>The decoder of text lines, in one of several formats an input.</summary>
internal sealed class LineTarget : IFuzzTarget
{
    private static readonly TextLineFormat[] Formats =
    [
        new(), new() { Time = TimeColumn.Microseconds, FullScale = 320 }, new() { Time = TimeColumn.Milliseconds, RateHz = 1600 },
        new() { Sensors = 2, Unit = AccelerationUnit.Counts, CountScale = 0.004 }, new() { Sensors = 8, Time = TimeColumn.Microseconds },
    ];

    public IReadOnlyList<byte[]> Corpus { get; } = [.. Formats.Select(Text)];

    public IReadOnlyList<string> Words { get; } = ["nan", "inf", "-inf", "1e308", "1e999", "-0", "1e-400", ",", ",,", ";", "\t", "\r\n", "\n", "\r", "4294967295", "18446744073709551616", "0x10", "1,5", " ", "\0", "é", "+", "."];

    public int Longest => 20_000;

    public bool Take(byte[] input, Random random)
    {
        var format = Formats[random.Next(Formats.Length)];
        return DecoderTarget.Take(new TextLineDecoder(format, new SourceCounters(), TimeProvider.System), format.Channels, input, random);
    }

    public void Dispose()
    {
    }

    private static byte[] Text(TextLineFormat format)
    {
        var text = new StringBuilder();
        for (var n = 0; n < 40; n++)
        {
            text.AppendJoin(',', Enumerable.Range(0, format.Columns).Select(c => c == 0 && format.Time != TimeColumn.None ? (n * 250).ToString(CultureInfo.InvariantCulture) : Math.Sin(n + c).ToString("0.0000", CultureInfo.InvariantCulture))).Append('\n');
        }

        return Encoding.ASCII.GetBytes(text.ToString());
    }
}
