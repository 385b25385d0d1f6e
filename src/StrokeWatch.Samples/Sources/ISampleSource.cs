using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Samples.Sources;

/// <summary>A place samples come from: a capture or a live sensor.</summary>
public interface ISampleSource : IDisposable
{
    /// <summary>Gets what the source says of itself.</summary>
    SourceInfo Info { get; }

    /// <summary>Gets what the source has counted so far.</summary>
    SourceCounters Counters { get; }

    /// <summary>Fills the block with the next samples; a live source waits at most about 0.2 s before it answers <see cref="SourceState.Nothing"/>.</summary>
    SourceState Read(SampleBlock block);
}
