using System.Diagnostics;
using System.Runtime.Versioning;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Quantities;
using StrokeWatch.Samples.Sources;
using StrokeWatch.Sensors.Serial;

namespace StrokeWatch.Benchmarks;

/// <summary>The cullet feeder's tray as a source whose stroke follows the time, and the cable behind its sensor, which notes when each sample went in.</summary>
[SupportedOSPlatform("linux")]
internal sealed class TrayFeed(PseudoTerminal cable, Func<double, double> strokeMillimetres) : ISampleSource, IByteSink
{
    private readonly Random random = new(7);
    private readonly List<long> sent = [];
    private readonly Lock gate = new();
    private int given;

    public SourceInfo Info { get; } = new() { Format = "tray", Axes = TraySignal.Axes, RateHz = TraySignal.RateHz };

    public SourceCounters Counters { get; } = new();

    /// <summary>Gets whether the thread that reads it goes before others, so that a busy machine does not make the sensor itself late.</summary>
    public bool Urgent { get; init; }

    public SourceState Read(SampleBlock block)
    {
        if (Urgent)
        {
            ThreadPriority.Raise();
        }

        block.Clear();
        for (var n = 0; n < block.Capacity; n++)
        {
            var t = (given + n) / TraySignal.RateHz;
            var along = Sinusoid.PeakAcceleration(Length.FromMillimetres(strokeMillimetres(t)), 50) * Math.Cos(2 * Math.PI * 50 * t);
            block.Fill(0)[n] = 0.9 * along + 0.2 * (random.NextDouble() - 0.5);
            block.Fill(1)[n] = 0.2 * (random.NextDouble() - 0.5);
            block.Fill(2)[n] = Math.Sqrt(1 - 0.81) * along + Gravity.Standard + 0.2 * (random.NextDouble() - 0.5);
        }

        block.SetCount(block.Capacity);
        given += block.Count;
        return SourceState.Samples;
    }

    /// <summary>Takes a frame; the samples given since the frame before are in it, and they arrive as the writing begins.</summary>
    public int Write(ReadOnlySpan<byte> bytes)
    {
        var now = Stopwatch.GetTimestamp();
        var written = cable.Write(bytes);
        lock (gate)
        {
            while (sent.Count < given)
            {
                sent.Add(now);
            }
        }

        return written;
    }

    /// <summary>Gives the stamp of a sample's arrival at the cable.</summary>
    public long Arrival(long sample)
    {
        lock (gate)
        {
            return sent[(int)sample];
        }
    }

    /// <summary>Gives the same; null where the sample has not gone in yet.</summary>
    public long? ArrivalOrNull(long sample)
    {
        lock (gate)
        {
            return sample < sent.Count ? sent[(int)sample] : null;
        }
    }

    public void Dispose()
    {
    }
}
