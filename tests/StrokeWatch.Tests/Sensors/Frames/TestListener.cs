using StrokeWatch.Samples.Sources;
using StrokeWatch.Sensors.Decoding;
using StrokeWatch.Sensors.Frames;
using Xunit;

namespace StrokeWatch.Tests.Sensors.Frames;

/// <summary>A listener that holds every value it is given against the running number it must have.</summary>
internal sealed class TestListener
{
    private readonly SampleRun run = new();
    private readonly int channels;

    public TestListener(long firstSample = 0, int channels = 3)
    {
        NextSample = firstSample;
        this.channels = channels;
        Decoder = new(Counters);
    }

    public SourceCounters Counters { get; } = new();

    public FrameDecoder Decoder { get; }

    public SampleRun LastRun => run;

    public long NextSample { get; private set; }

    public long Received { get; private set; }

    public int Announcements { get; private set; }

    public int Restarts { get; private set; }

    public List<long?> Gaps { get; } = [];

    public long Rejected(string reason) => Counters.Rejected.GetValueOrDefault(reason);

    /// <summary>Feeds bytes in pieces; a restart begins to count at <paramref name="afterRestart"/>.</summary>
    public void Hear(ReadOnlySpan<byte> bytes, int piece = 4096, long afterRestart = 0)
    {
        while (!bytes.IsEmpty)
        {
            var part = bytes[..Math.Min(piece, bytes.Length)];
            Assert.Equal(part.Length, Decoder.Feed(part));
            bytes = bytes[part.Length..];
            Drain(afterRestart);
        }
    }

    public void Break()
    {
        Decoder.Break();
        Drain(0);
    }

    private void Drain(long afterRestart)
    {
        while (Decoder.Next(run) is var state && state != DecodeState.None)
        {
            if (state == DecodeState.Announcement)
            {
                Announcements++;
                continue;
            }

            if (run.Restarted)
            {
                Restarts++;
                NextSample = afterRestart;
            }

            if (run.GapBefore)
            {
                Gaps.Add(run.MissingBefore);
                NextSample += run.MissingBefore ?? 0;
            }

            for (var i = 0; i < run.Count; i++, NextSample++)
            {
                for (var channel = 0; channel < channels; channel++)
                {
                    Assert.Equal(TestStream.Value(NextSample, channel), run[channel][i]);
                }
            }

            Received += run.Count;
        }
    }
}
