using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Measurement.CoastDown;
using StrokeWatch.Outputs.Mqtt;

namespace StrokeWatch.Pipeline;

/// <summary>Hands the newest stroke to the broker's task and wakes it for alarms, which it takes from the store.</summary>
internal sealed class MqttListener(MqttForwarder mqtt, FeederDescription feeder) : IChainListener
{
    /// <inheritdoc/>
    public void Window(in AssessedWindow window) => mqtt.Stroke(window.Reading, window.Verdict, window.Reading.Supply is null ? null : SupplyNow.Of(window.Reading, feeder));

    /// <inheritdoc/>
    public void Decay(in DecayReading decay)
    {
    }

    /// <inheritdoc/>
    public void Alarm(in AlarmTransition transition) => mqtt.Alarm();
}
