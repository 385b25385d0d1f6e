using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Sources;

namespace StrokeWatch.EndToEnd.Tests.Live;

/// <summary>One of several simulated sensors of three axes, as if it were alone.</summary>
internal sealed class OnlySensor(ISampleSource all, SensorPlace place) : ISampleSource
{
    private SampleBlock? whole;

    public SourceInfo Info => all.Info with { Axes = [Axis.X, Axis.Y, Axis.Z], Places = [] };

    public SourceCounters Counters => all.Counters;

    public SourceState Read(SampleBlock block)
    {
        whole ??= new(all.Info.Axes.Count, block.Capacity);
        var state = all.Read(whole);
        block.Clear();
        var first = all.Info.Places.ToList().IndexOf(place);
        for (var axis = 0; axis < 3; axis++)
        {
            whole[first + axis].CopyTo(block.Fill(axis));
        }

        block.SetCount(whole.Count);
        (block.RateHz, block.StartSeconds, block.FullScale) = (whole.RateHz, whole.StartSeconds, whole.FullScale);
        return state;
    }

    public void Dispose() => all.Dispose();
}
