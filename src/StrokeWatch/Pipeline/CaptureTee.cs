using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Captures;

namespace StrokeWatch.Pipeline;

/// <summary>Writes the raw blocks of a live source to a capture beside the measurement; its trouble stops only itself.</summary>
internal sealed class CaptureTee(Func<SampleBlock, ICaptureWriter> open, Action<string> tell) : IBlockListener, IDisposable
{
    private ICaptureWriter? writer;
    private bool troubled;

    /// <inheritdoc/>
    public void Take(SampleBlock block)
    {
        if (troubled)
        {
            return;
        }

        try
        {
            writer ??= open(block);
            writer.Write(block);
        }
        catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException)
        {
            troubled = true;
            tell($"the capture cannot be written: {trouble.Message}");
        }
    }

    /// <inheritdoc/>
    public void Dispose() => writer?.Dispose();
}
