using Serilog;
using StrokeWatch.Assessment;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Measurement.CoastDown;

namespace StrokeWatch.Pipeline;

/// <summary>Writes alarms to the log, and remembers whether any was raised.</summary>
internal sealed class AlarmLog(ILogger log) : IChainListener
{
    /// <summary>Gets how many alarms were raised.</summary>
    public int Raised { get; private set; }

    /// <inheritdoc/>
    public void Window(in AssessedWindow window)
    {
    }

    /// <inheritdoc/>
    public void Decay(in DecayReading decay)
    {
    }

    /// <inheritdoc/>
    public void Alarm(in AlarmTransition transition)
    {
        if (transition.Raised)
        {
            Raised++;
            log.Warning("Alarm {Kind:l} raised: {Words:l}", Names.Of(transition.Kind), transition.Words);
        }
        else
        {
            log.Information("Alarm {Kind:l} cleared: {Words:l}", Names.Of(transition.Kind), transition.Words);
        }
    }
}
