using System.Text;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Sources;

namespace StrokeWatch.Tests.Samples.Captures;

/// <summary>A capture read to its end, block by block, for tests to look at.</summary>
internal sealed record Reading(SourceInfo Info, CaptureSummary Summary, SourceCounters Counters, double[][] Values, List<Reading.Boundary> Blocks, List<int> Clipped)
{
    public const double G = 9.80665;

    public static Reading OfText(string text, CaptureOptions? options = null, int capacity = 1000) =>
        OfBytes(Encoding.UTF8.GetBytes(text), options, capacity);

    public static Reading OfBytes(byte[] bytes, CaptureOptions? options = null, int capacity = 1000) =>
        Of(CaptureFile.Open(new CaptureBytes("cullet.csv", () => new MemoryStream(bytes, writable: false)), options ?? new()), capacity);

    public static Reading OfFile(string path, CaptureOptions? options = null, int capacity = 1000) => Of(CaptureFile.Open(path, options), capacity);

    public static string ErrorOf(string text, CaptureOptions? options = null) =>
        Xunit.Assert.Throws<CaptureException>(() => OfText(text, options)).Message;

    public static CaptureOptions Columns(string columns)
    {
        Xunit.Assert.True(CaptureOptions.TryParseColumns(columns, out var choices, out var error), error);
        return new CaptureOptions { Columns = choices };
    }

    private static Reading Of(ICaptureSource source, int capacity)
    {
        using (source)
        {
            var block = new SampleBlock(source.Info.Axes.Count, capacity);
            var values = source.Info.Axes.Select(_ => new List<double>()).ToArray();
            var blocks = new List<Boundary>();
            var clipped = new List<int>();
            while (source.Read(block) == SourceState.Samples)
            {
                Xunit.Assert.InRange(block.Count, 1, capacity);
                blocks.Add(new(values[0].Count, block.Count, block.StartSeconds, block.GapBefore, block.MissingBefore));
                for (var i = 0; i < block.Count; i++)
                {
                    if (block.Marks[i].HasFlag(SampleMarks.Clipped))
                    {
                        clipped.Add(values[0].Count + i);
                    }
                }

                for (var c = 0; c < values.Length; c++)
                {
                    foreach (var value in block[c])
                    {
                        Xunit.Assert.True(double.IsFinite(value));
                        values[c].Add(value);
                    }
                }
            }

            Xunit.Assert.Equal(SourceState.End, source.Read(block));
            Xunit.Assert.Equal(values[0].Count, source.Counters.Samples);
            Xunit.Assert.Equal(blocks.Count(b => b.Gap), source.Counters.Gaps);
            Xunit.Assert.Equal(blocks.Sum(b => b.Missing), source.Counters.MissingSamples);
            return new(source.Info, source.Summary, source.Counters, Array.ConvertAll(values, v => v.ToArray()), blocks, clipped);
        }
    }

    internal readonly record struct Boundary(int First, int Count, double Start, bool Gap, long Missing);
}
