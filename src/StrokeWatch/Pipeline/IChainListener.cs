using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Assessment.Stretches;
using StrokeWatch.Assessment.Watching;
using StrokeWatch.Measurement.CoastDown;
using StrokeWatch.Measurement.Stations;

namespace StrokeWatch.Pipeline;

/// <summary>Hears what a chain measures and alarms, in order of time.</summary>
internal interface IChainListener
{
    /// <summary>Hears that a measurement begins, or begins anew with other settings.</summary>
    void Begin(IMeasurement measurement)
    {
    }

    /// <summary>Hears a window with its verdict.</summary>
    void Window(in AssessedWindow window);

    /// <summary>Hears what several sensors showed in a window, just before the window itself.</summary>
    void Several(in SeveralReading reading)
    {
    }

    /// <summary>Hears a free decay.</summary>
    void Decay(in DecayReading decay);

    /// <summary>Hears what the beat of a start told.</summary>
    void Start(in StartReading reading)
    {
    }

    /// <summary>Hears an alarm raised or cleared.</summary>
    void Alarm(in AlarmTransition transition);

    /// <summary>Hears a stretch of running summed up.</summary>
    void Stretch(Stretch stretch)
    {
    }

    /// <summary>Hears what has become of the machine over weeks: a finding raised or cleared.</summary>
    void Finding(FindingTransition transition)
    {
    }

    /// <summary>Hears that another baseline is in force, or why none is, in a sentence.</summary>
    void Baseline(string words)
    {
    }

    /// <summary>Hears that a live run ends: nothing more will come but what this sets going.</summary>
    void Finish()
    {
    }
}
