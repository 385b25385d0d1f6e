using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Sources;

namespace StrokeWatch.Outputs.Captures;

/// <summary>The newest samples of one device, through changes of its rate and its channels.</summary>
/// <param name="clock">The clock.</param>
/// <param name="seconds">How much is held.</param>
/// <param name="places">The places of its sensors; empty where there is one sensor.</param>
/// <param name="mostBytes">The memory it may take, whatever the device's rate and channels: less is held then.</param>
internal sealed class SensorFeed(TimeProvider clock, double seconds, IReadOnlyList<SensorPlace> places, long mostBytes = long.MaxValue)
{
    private volatile SampleRing? ring;

    /// <summary>Gets the samples; null before the first.</summary>
    public SampleRing? Ring => ring;

    /// <summary>Gets the places of its sensors.</summary>
    public IReadOnlyList<SensorPlace> Places => places;

    /// <summary>Takes a block as read; never waits, and allocates only where rate or channels change.</summary>
    public void Take(SampleBlock block, SourceInfo info)
    {
        if ((block.RateHz ?? info.RateHz) is not { } rate)
        {
            return;
        }

        var held = ring;
        if (held is null || !held.Fits(info, block.Channels, rate))
        {
            ring = held = new(info, block.Channels, rate, Math.Min(seconds, mostBytes / (4.0 * (block.Channels + (info.HasSupply ? 1 : 0)) * rate)));
        }

        held.Take(block, rate, clock.GetTimestamp());
    }
}
