using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Samples.Captures;

/// <summary>A capture being written; disposing it completes the file.</summary>
public interface ICaptureWriter : IDisposable
{
    /// <summary>Appends a block; samples that are not finite become part of a gap.</summary>
    void Write(SampleBlock block);

    /// <summary>Hands everything written so far to the operating system.</summary>
    void Flush();
}
