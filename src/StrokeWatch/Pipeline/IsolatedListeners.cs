using Serilog;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Measurement.CoastDown;

namespace StrokeWatch.Pipeline;

/// <summary>Several listeners as one: the trouble of one is logged once and stops neither the others nor the measurement.</summary>
internal sealed class IsolatedListeners(ILogger log, params IReadOnlyList<IChainListener> listeners) : IChainListener
{
    private readonly HashSet<IChainListener> troubled = [];

    /// <inheritdoc/>
    public void Window(in AssessedWindow window)
    {
        foreach (var listener in listeners)
        {
            try
            {
                listener.Window(window);
            }
            catch (Exception trouble)
            {
                Tell(listener, trouble);
            }
        }
    }

    /// <inheritdoc/>
    public void Decay(in DecayReading decay)
    {
        foreach (var listener in listeners)
        {
            try
            {
                listener.Decay(decay);
            }
            catch (Exception trouble)
            {
                Tell(listener, trouble);
            }
        }
    }

    /// <inheritdoc/>
    public void Alarm(in AlarmTransition transition)
    {
        foreach (var listener in listeners)
        {
            try
            {
                listener.Alarm(transition);
            }
            catch (Exception trouble)
            {
                Tell(listener, trouble);
            }
        }
    }

    private void Tell(IChainListener listener, Exception trouble)
    {
        if (troubled.Add(listener))
        {
            log.Error(trouble, "Output {Output} fails; the measurement goes on", listener.GetType().Name);
        }
    }
}
