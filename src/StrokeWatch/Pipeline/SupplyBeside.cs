using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Assessment.Stretches;
using StrokeWatch.Assessment.Watching;
using StrokeWatch.Measurement.CoastDown;
using StrokeWatch.Measurement.Stations;
using StrokeWatch.Measurement.Supply;
using StrokeWatch.Sensors.Converters;

namespace StrokeWatch.Pipeline;

/// <summary>Puts the voltage that a converter beside the sensor reads into windows that have none of their own; all else goes on as it comes.</summary>
/// <param name="meter">The converter.</param>
/// <param name="voltsPerVolt">Volts of the supply for one volt at the converter's input.</param>
/// <param name="next">Who hears it then.</param>
internal sealed class SupplyBeside(SupplyMeter meter, double voltsPerVolt, IChainListener next) : IChainListener
{
    private const string OnlyRms = "the voltage is read by a converter of the board, whose samples are not those of the motion: phase and firing angle are not known";

    /// <summary>A voltage older than this says nothing of a window.</summary>
    private static readonly TimeSpan Youngest = TimeSpan.FromSeconds(3);

    /// <inheritdoc/>
    public void Window(in AssessedWindow window)
    {
        if (window.Reading.Supply is not null)
        {
            next.Window(window);
            return;
        }

        var volts = meter.Volts(Youngest) * voltsPerVolt;
        var supply = new SupplyReading { RmsVolts = volts, MainsVolts = volts, RmsAlone = true, Reason = volts is null ? meter.Trouble ?? "no voltage has come for some seconds" : OnlyRms };
        next.Window(window with { Reading = window.Reading with { Supply = supply } });
    }

    /// <inheritdoc/>
    public void Begin(IMeasurement measurement) => next.Begin(measurement);

    /// <inheritdoc/>
    public void Several(in SeveralReading reading) => next.Several(reading);

    /// <inheritdoc/>
    public void Decay(in DecayReading decay) => next.Decay(decay);

    /// <inheritdoc/>
    public void Start(in StartReading reading) => next.Start(reading);

    /// <inheritdoc/>
    public void Alarm(in AlarmTransition transition) => next.Alarm(transition);

    /// <inheritdoc/>
    public void Stretch(Stretch stretch) => next.Stretch(stretch);

    /// <inheritdoc/>
    public void Finding(FindingTransition transition) => next.Finding(transition);

    /// <inheritdoc/>
    public void Baseline(string words) => next.Baseline(words);

    /// <inheritdoc/>
    public void Finish() => next.Finish();
}
