using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Sources;

namespace StrokeWatch.Page.Captures;

/// <summary>A source that stops being read once nobody waits for what comes of it.</summary>
internal sealed class AbandonedSource(ISampleSource source, CancellationToken gone) : ISampleSource
{
    /// <inheritdoc/>
    public SourceInfo Info => source.Info;

    /// <inheritdoc/>
    public SourceCounters Counters => source.Counters;

    /// <inheritdoc/>
    public SourceState Read(SampleBlock block)
    {
        gone.ThrowIfCancellationRequested();
        return source.Read(block);
    }

    /// <inheritdoc/>
    public void Dispose() => source.Dispose();
}
