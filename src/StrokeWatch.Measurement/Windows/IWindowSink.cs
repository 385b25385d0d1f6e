using StrokeWatch.Measurement.CoastDown;

namespace StrokeWatch.Measurement.Windows;

/// <summary>Takes what the meter measures, in order of time.</summary>
public interface IWindowSink
{
    /// <summary>Takes one window.</summary>
    void Window(in WindowReading reading);

    /// <summary>Takes a free decay after a stop.</summary>
    void Decay(in DecayReading reading);
}
