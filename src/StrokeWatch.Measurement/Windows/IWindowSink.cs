using StrokeWatch.Measurement.CoastDown;
using StrokeWatch.Measurement.Stations;

namespace StrokeWatch.Measurement.Windows;

/// <summary>Takes what the meter measures, in order of time.</summary>
public interface IWindowSink
{
    /// <summary>Takes one window.</summary>
    void Window(in WindowReading reading);

    /// <summary>Takes what several sensors showed in one window, just before the window itself; of a single sensor nothing comes.</summary>
    void Several(in SeveralReading reading)
    {
    }

    /// <summary>Takes a stop or a start as it was caught; reads it at once where a sink does not choose another time and place.</summary>
    void Transient(CaughtTransient transient) => transient.Read()?.Invoke(this);

    /// <summary>Takes a free decay after a stop.</summary>
    void Decay(in DecayReading reading);

    /// <summary>Takes what the beat of a start told.</summary>
    void Start(in StartReading reading)
    {
    }
}
