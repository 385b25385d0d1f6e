using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Sources;

namespace StrokeWatch.Pipeline.Ports;

/// <summary>A block on its way from a device's reading thread to the measuring one.</summary>
/// <param name="Block">The samples; it goes back to its reader when it is measured.</param>
internal sealed record ArrivedBlock(SampleBlock Block)
{
    /// <summary>Gets or sets what the source said of itself when it gave the block.</summary>
    public SourceInfo? Info { get; set; }

    /// <summary>Gets or sets when it arrived, in seconds on the host's clock.</summary>
    public double HostSeconds { get; set; }
}
