using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Pipeline;

/// <summary>Takes the raw blocks of a live source, a capture writer for instance.</summary>
internal interface IBlockListener
{
    /// <summary>Takes a block; it is filled anew afterwards.</summary>
    void Take(SampleBlock block);
}
