using Serilog;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Assessment.Stretches;
using StrokeWatch.Assessment.Watching;
using StrokeWatch.Measurement.CoastDown;
using StrokeWatch.Outputs.Store;
using StrokeWatch.Sensors.Live;

namespace StrokeWatch.Pipeline;

/// <summary>Hands what the chain gives to the store, and says in the log when the store gets into trouble or out of it.</summary>
internal sealed class StoreListener(SqliteStore store, ILogger log) : IChainListener
{
    private StoreState last = StoreState.Opening;

    /// <inheritdoc/>
    public void Window(in AssessedWindow window)
    {
        _ = store.Window(window.Reading, window.Verdict);
        Watch();
    }

    /// <inheritdoc/>
    public void Decay(in DecayReading decay) => _ = store.Event(
        StoreEventKind.CoastDown,
        Words(decay));

    /// <inheritdoc/>
    public void Start(in StartReading reading) => _ = store.Event(
        StoreEventKind.StartUp,
        reading.Decay is { } decay ? Words(decay) : $"natural frequency not told: {reading.Reason}");

    /// <inheritdoc/>
    public void Alarm(in AlarmTransition transition) => _ = store.Alarm(transition);

    /// <inheritdoc/>
    public void Stretch(Stretch stretch) => _ = store.Stretch(stretch);

    /// <inheritdoc/>
    public void Finding(FindingTransition transition) => _ = store.Finding(transition);

    /// <inheritdoc/>
    public void Baseline(string words) => _ = store.Event(StoreEventKind.Baseline, words);

    /// <summary>Takes what happened to the sensor.</summary>
    public void Sensor(in SensorEvent happened)
    {
        var kind = happened.Kind switch
        {
            SensorEventKind.Lost or SensorEventKind.Unreachable => StoreEventKind.SensorLost,
            SensorEventKind.Back => StoreEventKind.SensorBack,
            SensorEventKind.Restarted => StoreEventKind.Gap,
            _ => StoreEventKind.Configuration,
        };
        _ = store.Event(kind, happened.Words);
    }

    private static string Words(in DecayReading decay) => FormattableString.Invariant(
        $"natural frequency {decay.NaturalFrequencyHz:0.000} Hz ± {decay.FrequencyUncertaintyHz:0.000} Hz, damping ratio {decay.DampingRatio:0.00000} ± {decay.DampingUncertainty:0.00000}, drive {decay.DriveHz:0.000} Hz");

    private void Watch()
    {
        var health = store.Health;
        if (health.State == last)
        {
            return;
        }

        if (health.State is StoreState.Full or StoreState.Trouble)
        {
            log.Error("Store: {Trouble}", health.Trouble);
        }
        else if (last is StoreState.Full or StoreState.Trouble)
        {
            log.Information("Store: rows are written again");
        }

        last = health.State;
    }
}
