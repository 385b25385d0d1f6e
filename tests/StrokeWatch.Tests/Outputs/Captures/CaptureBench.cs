using Microsoft.Extensions.Time.Testing;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Outputs.Captures;
using StrokeWatch.Outputs.Store;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Samples.Sources;
using Xunit;

namespace StrokeWatch.Tests.Outputs.Captures;

/// <summary>A device with one axis whose samples are numbers in order, a clock that goes with them, and what keeps the waveforms of its alarms.</summary>
internal sealed class CaptureBench : IDisposable
{
    public const double RateHz = 1000;
    public static readonly DateTimeOffset Noon = new(2026, 3, 29, 12, 0, 0, TimeSpan.Zero);
    public static readonly SourceInfo Info = new() { Format = "frames", Axes = [Axis.Z], RateHz = RateHz, FullScale = 40 * Gravity.Standard };

    private readonly SampleBlock block = new(1, 100);
    private readonly Lock gate = new();
    private AlarmCaptures? captures;
    private long next;

    public FakeTimeProvider Clock { get; } = new(Noon);

    public string Root { get; } = Directory.CreateTempSubdirectory("strokewatch-captures-").FullName;

    public string Folder => Path.Combine(Root, "captures");

    public List<AlarmWaveform> Kept { get; } = [];

    public List<string> Removed { get; } = [];

    public AlarmCaptures Captures => captures!;

    /// <summary>Gives the value of a sample, in g: small enough to be told apart as a 32-bit number.</summary>
    public static float Value(long sample) => sample / 65_536f;

    /// <summary>Starts, or starts again.</summary>
    public CaptureBench Start(Func<AlarmCaptureOptions, AlarmCaptureOptions>? change = null)
    {
        captures?.Dispose();
        var options = new AlarmCaptureOptions { Folder = Folder, ReserveBytes = 0 };
        captures = new(change is null ? options : change(options), [[]], Clock, waveform => Note(() => Kept.Add(waveform)), file => Note(() => Removed.Add(file)));
        return this;
    }

    /// <summary>Lets samples come; time passes with them.</summary>
    public void Feed(double seconds, long missing = 0)
    {
        next += missing;
        for (var left = (int)(seconds * RateHz); left > 0; left -= block.Count)
        {
            block.Clear();
            block.RateHz = RateHz;
            (block.GapBefore, block.MissingBefore) = (missing > 0, missing);
            block.SetCount(Math.Min(100, left));
            for (var i = 0; i < block.Count; i++)
            {
                block.Fill(0)[i] = Value(next++) * Gravity.Standard;
            }

            Clock.Advance(TimeSpan.FromSeconds(block.Count / RateHz));
            captures!.Take(0, block, Info);
            missing = 0;
        }
    }

    /// <summary>Lets samples come no faster than a writer that looks five times a second can follow.</summary>
    public async Task Flow(double seconds)
    {
        for (; seconds > 0; seconds -= 8)
        {
            Feed(Math.Min(8, seconds));
            await Task.Delay(500);
        }
    }

    public void Alarm(AlarmKind kind = AlarmKind.OverStroke, bool raised = true) => captures!.Alarm(new(kind, raised, 0, null, "Over-stroke."));

    /// <summary>Waits, in real time, for what another thread does.</summary>
    public static async Task Until(Func<bool> asked)
    {
        for (var i = 0; i < 1500 && !asked(); i++)
        {
            await Task.Delay(20);
        }

        Assert.True(asked());
    }

    public async Task<IReadOnlyList<AlarmWaveform>> Waveforms(int count)
    {
        await Until(() => Note(() => Kept.Count >= count));
        return Note(() => Kept.ToArray());
    }

    /// <summary>Reads a capture back: its samples as numbers in order, and before which of them how many are missing.</summary>
    public (SourceInfo Info, List<long> Samples, List<(int At, long Missing)> Gaps) Read(string file)
    {
        using var source = CaptureFile.Open(Path.Combine(Folder, file));
        var (samples, gaps, read) = (new List<long>(), new List<(int, long)>(), new SampleBlock(1, 512));
        while (source.Read(read) is var state && state != SourceState.End)
        {
            if (read.GapBefore)
            {
                gaps.Add((samples.Count, read.MissingBefore));
            }

            foreach (var value in read[0])
            {
                samples.Add((long)Math.Round(value / Gravity.Standard * 65_536));
                Assert.Equal(Value(samples[^1]), (float)(value / Gravity.Standard));
            }
        }

        return (source.Info, samples, gaps);
    }

    public static List<long> Range(long from, long to) => [.. Enumerable.Range(0, (int)(to - from)).Select(i => from + i)];

    public void Dispose()
    {
        captures?.Dispose();
        Directory.Delete(Root, recursive: true);
    }

    private void Note(Action work)
    {
        lock (gate)
        {
            work();
        }
    }

    private T Note<T>(Func<T> work)
    {
        lock (gate)
        {
            return work();
        }
    }
}
