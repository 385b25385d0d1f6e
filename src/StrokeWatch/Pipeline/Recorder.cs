using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Measurement.CoastDown;
using StrokeWatch.Measurement.Stations;

namespace StrokeWatch.Pipeline;

/// <summary>Gathers what a chain gives into a report.</summary>
internal sealed class Recorder(ReportBuilder builder) : IChainListener
{
    /// <inheritdoc/>
    public void Window(in AssessedWindow window) => builder.Add(window);

    /// <inheritdoc/>
    public void Several(in SeveralReading reading) => builder.Add(reading);

    /// <inheritdoc/>
    public void Decay(in DecayReading decay) => builder.Add(decay);

    /// <inheritdoc/>
    public void Start(in StartReading reading) => builder.Add(reading);

    /// <inheritdoc/>
    public void Alarm(in AlarmTransition transition) => builder.Add(transition);
}
