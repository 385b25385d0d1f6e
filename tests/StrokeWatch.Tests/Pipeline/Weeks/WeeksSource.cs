using Microsoft.Extensions.Time.Testing;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Sources;
using StrokeWatch.Sensors.Simulated;
using StrokeWatch.Sensors.Simulated.Histories;

namespace StrokeWatch.Tests.Pipeline.Weeks;

/// <summary>Captures of weeks as one live source: the sensor is away between them, and the clock goes with the samples.</summary>
internal sealed class WeeksSource : ISampleSource
{
    private const double Away = 100;
    private readonly Queue<HistoryCapture> captures;
    private readonly FakeTimeProvider clock;
    private SimulatedFeederSource source;
    private double offset;
    private double end;
    private bool begins = true;

    public WeeksSource(IEnumerable<HistoryCapture> captures, FakeTimeProvider clock)
    {
        this.captures = new(captures);
        this.clock = clock;
        source = Next();
    }

    public SourceInfo Info => source.Info;

    public SourceCounters Counters { get; } = new();

    public SourceState Read(SampleBlock block)
    {
        while (source.Read(block) == SourceState.End)
        {
            if (captures.Count == 0)
            {
                return SourceState.End;
            }

            source.Dispose();
            source = Next();
            (offset, begins) = (end + Away, end > 0);
        }

        block.StartSeconds += offset;
        (block.GapBefore, begins) = (begins && offset > 0, false);
        end = block.StartSeconds + (block.Count / Info.RateHz!.Value);
        clock.Advance(TimeSpan.FromSeconds(block.Count / Info.RateHz.Value));
        return SourceState.Samples;
    }

    public void Dispose() => source.Dispose();

    private SimulatedFeederSource Next()
    {
        var capture = captures.Dequeue();
        clock.SetUtcNow(capture.Recorded);
        return new(capture.Scenario);
    }
}
