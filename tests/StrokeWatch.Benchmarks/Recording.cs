using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Sources;

namespace StrokeWatch.Benchmarks;

/// <summary>The blocks of a source kept in memory and given again.</summary>
internal sealed class Recording : ISampleSource
{
    private const int BlockSamples = 4096;
    private readonly Queue<SampleBlock> blocks = new();

    private Recording(SourceInfo info) => Info = info;

    /// <inheritdoc/>
    public SourceInfo Info { get; }

    /// <inheritdoc/>
    public SourceCounters Counters { get; } = new();

    /// <summary>Reads a source to its end.</summary>
    public static Recording Of(ISampleSource source)
    {
        var recording = new Recording(source.Info);
        while (true)
        {
            var block = new SampleBlock(source.Info.Axes.Count, BlockSamples);
            if (source.Read(block) != SourceState.Samples)
            {
                return recording;
            }

            recording.blocks.Enqueue(block);
        }
    }

    /// <inheritdoc/>
    public SourceState Read(SampleBlock block)
    {
        block.Clear();
        if (!blocks.TryDequeue(out var kept))
        {
            return SourceState.End;
        }

        (block.RateHz, block.FullScale, block.StartSeconds, block.GapBefore, block.MissingBefore) =
            (kept.RateHz, kept.FullScale, kept.StartSeconds, kept.GapBefore, kept.MissingBefore);
        for (var channel = 0; channel < kept.Channels; channel++)
        {
            kept[channel].CopyTo(block.Fill(channel));
        }

        kept.Marks.CopyTo(block.FillMarks());
        block.SetCount(kept.Count);
        Counters.Samples += kept.Count;
        return SourceState.Samples;
    }

    /// <inheritdoc/>
    public void Dispose()
    {
    }
}
