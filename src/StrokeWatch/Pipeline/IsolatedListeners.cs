using Serilog;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Assessment.Stretches;
using StrokeWatch.Assessment.Watching;
using StrokeWatch.Measurement.CoastDown;
using StrokeWatch.Measurement.Stations;

namespace StrokeWatch.Pipeline;

/// <summary>Several listeners as one: the trouble of one is logged once and stops neither the others nor the measurement.</summary>
internal sealed class IsolatedListeners(ILogger log, params IReadOnlyList<IChainListener> listeners) : IChainListener
{
    private readonly HashSet<IChainListener> troubled = [];

    /// <summary>Gets who is told, each time, which listener fails.</summary>
    public Action<string>? Failed { get; init; }

    /// <inheritdoc/>
    public void Begin(IMeasurement measurement) => Each(measurement, static (listener, heard) => listener.Begin(heard));

    /// <inheritdoc/>
    public void Window(in AssessedWindow window) => Each(window, static (listener, heard) => listener.Window(heard));

    /// <inheritdoc/>
    public void Several(in SeveralReading reading) => Each(reading, static (listener, heard) => listener.Several(heard));

    /// <inheritdoc/>
    public void Decay(in DecayReading decay) => Each(decay, static (listener, heard) => listener.Decay(heard));

    /// <inheritdoc/>
    public void Start(in StartReading reading) => Each(reading, static (listener, heard) => listener.Start(heard));

    /// <inheritdoc/>
    public void Alarm(in AlarmTransition transition) => Each(transition, static (listener, heard) => listener.Alarm(heard));

    /// <inheritdoc/>
    public void Stretch(Stretch stretch) => Each(stretch, static (listener, heard) => listener.Stretch(heard));

    /// <inheritdoc/>
    public void Finding(FindingTransition transition) => Each(transition, static (listener, heard) => listener.Finding(heard));

    /// <inheritdoc/>
    public void Baseline(string words) => Each(words, static (listener, heard) => listener.Baseline(heard));

    /// <inheritdoc/>
    public void Finish() => Each(0, static (listener, _) => listener.Finish());

    private void Each<T>(T heard, Action<IChainListener, T> tell)
    {
        foreach (var listener in listeners)
        {
            try
            {
                tell(listener, heard);
            }
            catch (Exception trouble)
            {
                Log(listener, trouble);
            }
        }
    }

    private void Log(IChainListener listener, Exception trouble)
    {
        Failed?.Invoke(listener.GetType().Name);
        if (troubled.Add(listener))
        {
            log.Error(trouble, "Output {Output} fails; the measurement goes on", listener.GetType().Name);
        }
    }
}
