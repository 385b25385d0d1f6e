using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Commands;

/// <summary>A place that samples of one or several sensors are written to.</summary>
internal interface ICaptureSink : IDisposable
{
    /// <summary>Writes a block and the time stamp of each of its samples in seconds.</summary>
    void Write(SampleBlock block, ReadOnlySpan<double> times);
}
