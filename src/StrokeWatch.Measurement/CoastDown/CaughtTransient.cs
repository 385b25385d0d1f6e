using StrokeWatch.Measurement.Windows;

namespace StrokeWatch.Measurement.CoastDown;

/// <summary>A stop or a start as it was caught, still to be read; reading costs tens of milliseconds and may be done on any thread.</summary>
public sealed class CaughtTransient
{
    private readonly TransientSamples samples;
    private readonly Drive drive;

    /// <summary>Makes it of samples that nobody changes any more.</summary>
    internal CaughtTransient(TransientKind kind, TransientSamples samples, Drive drive) => (Kind, this.samples, this.drive) = (kind, samples, drive);

    /// <summary>Gets what it is.</summary>
    public TransientKind Kind { get; }

    /// <summary>Gets the time of its first sample in seconds.</summary>
    public double StartSeconds => samples.StartSeconds;

    /// <summary>Reads it.</summary>
    /// <returns>What a sink is to be told; null where it shows nothing.</returns>
    public Action<IWindowSink>? Read()
    {
        if (Kind == TransientKind.Start)
        {
            var start = StartReader.Read(samples, drive);
            return sink => sink.Start(start);
        }

        return CoastDownReader.Read(samples, drive) is { } stop ? sink => sink.Decay(stop) : null;
    }
}
