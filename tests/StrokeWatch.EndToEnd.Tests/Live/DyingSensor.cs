using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Sources;

namespace StrokeWatch.EndToEnd.Tests.Live;

/// <summary>A board one of whose sensors gives the same value for ever from a moment on.</summary>
internal sealed class DyingSensor(ISampleSource board, SensorPlace place) : ISampleSource
{
    private volatile bool dead;

    public SourceInfo Info => board.Info;

    public SourceCounters Counters => board.Counters;

    public void Die() => dead = true;

    public SourceState Read(SampleBlock block)
    {
        var state = board.Read(block);
        for (var channel = 0; dead && state == SourceState.Samples && channel < block.Channels; channel++)
        {
            if (Info.Places[channel] == place)
            {
                block.Fill(channel)[..block.Count].Fill(0.5);
            }
        }

        return state;
    }

    public void Dispose() => board.Dispose();
}
