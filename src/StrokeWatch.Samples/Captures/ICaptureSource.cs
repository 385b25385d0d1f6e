using StrokeWatch.Samples.Sources;

namespace StrokeWatch.Samples.Captures;

/// <summary>A capture file as a source of samples.</summary>
public interface ICaptureSource : ISampleSource
{
    /// <summary>Gets what is known of the capture as a whole.</summary>
    CaptureSummary Summary { get; }
}
