using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Wav;

namespace StrokeWatch.Commands;

/// <summary>A WAV capture; its samples are placed by the rate, so that time stamps are not kept.</summary>
internal sealed class WavCaptureSink(string path, IReadOnlyList<Axis> axes, double rateHz, double fullScaleG, IReadOnlyList<SensorPlace> places,
    DateTimeOffset? recorded, bool supply) : ICaptureSink
{
    private readonly WavCaptureWriter writer = new(path, axes, rateHz, fullScaleG, places, recorded, supply);

    /// <inheritdoc/>
    public void Write(SampleBlock block, ReadOnlySpan<double> times) => writer.Write(block);

    /// <inheritdoc/>
    public void Dispose() => writer.Dispose();
}
