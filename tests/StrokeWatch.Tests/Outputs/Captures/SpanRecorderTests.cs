using Microsoft.Extensions.Time.Testing;
using StrokeWatch.Outputs.Captures;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Sources;
using Xunit;

namespace StrokeWatch.Tests.Outputs.Captures;

public sealed class SpanRecorderTests : IDisposable
{
    private const double Rate = 25_600;
    private static readonly SourceInfo Info = new() { Format = "frames", Axes = [Axis.X, Axis.Y, Axis.Z], RateHz = Rate };
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("strokewatch-span-");
    private readonly FakeTimeProvider clock = new(new(2026, 3, 4, 8, 0, 0, TimeSpan.Zero));

    public void Dispose() => folder.Delete(recursive: true);

    [Fact]
    public void A_long_measurement_of_a_fast_sensor_takes_no_more_memory_than_said_and_its_last_part_is_kept_without_a_gap()
    {
        const int Blocks = 600, Count = 4096;
        var recorder = new SpanRecorder([[SensorPlace.Front], [SensorPlace.Rear]], clock);
        recorder.Begin(305);
        var (before, block) = (GC.GetAllocatedBytesForCurrentThread(), Block(Count));
        for (var n = 0; n < Blocks; n++)
        {
            block.Fill(2)[Count - 1] = n;
            clock.Advance(TimeSpan.FromSeconds(Count / Rate));
            recorder.Take(0, block, Info);
        }

        // 305 s would be 94 MB a device.
        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 1, SpanRecorder.MostBytes);
        var path = Assert.Single(recorder.End(Path.Combine(folder.FullName, "cullet.trial")));
        Assert.EndsWith("cullet.trial-front.wav", path, StringComparison.Ordinal);
        Assert.InRange(new FileInfo(path).Length, 0.49 * SpanRecorder.MostBytes, 0.51 * SpanRecorder.MostBytes);

        var (frames, gaps, last, read) = (0L, 0, double.NaN, new SampleBlock(3, 4096));
        using var source = CaptureFile.Open(path, new());
        while (source.Read(read) == SourceState.Samples)
        {
            (frames, gaps, last) = (frames + read.Count, gaps + (read.GapBefore ? 1 : 0), read[2][read.Count - 1]);
        }

        Assert.Equal(0, gaps);
        Assert.Equal(Blocks - 1, last, 1e-3);
        Assert.InRange(frames / Rate, 25.9, 26.1);
    }

    private static SampleBlock Block(int count)
    {
        var block = new SampleBlock(3, count) { RateHz = Rate };
        for (var channel = 0; channel < 3; channel++)
        {
            block.Fill(channel)[..count].Clear();
        }

        block.SetCount(count);
        return block;
    }
}
