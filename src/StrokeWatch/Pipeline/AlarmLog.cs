using Serilog;
using StrokeWatch.Assessment;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Assessment.Watching;
using StrokeWatch.Measurement.CoastDown;
using StrokeWatch.Reports;

namespace StrokeWatch.Pipeline;

/// <summary>Writes alarms and findings to the log, and remembers whether any was raised.</summary>
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

    /// <inheritdoc/>
    public void Finding(FindingTransition transition)
    {
        if (!transition.Raised)
        {
            log.Information("Finding {Id:l} cleared", transition.Finding.Id);
            return;
        }

        log.Warning("Finding {Id:l}: {Words:l}", transition.Finding.Id, transition.Finding.Words);
        foreach (var line in FindingText.Lines(transition.Finding))
        {
            log.Warning("{Line:l}", line);
        }
    }

    /// <inheritdoc/>
    public void Baseline(string words) => log.Information("Baseline: {Words:l}", words);
}
