using System.Globalization;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Measurement.CoastDown;
using StrokeWatch.Measurement.Stations;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Pipeline;
using StrokeWatch.Reports;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Session;

/// <summary>Shows a live measurement as it goes: what is left of the time, the stroke, when to stop the feeder; and hands all of it on.</summary>
internal sealed class MeasurePanel(TextWriter writer, bool terminal, FeederDescription feeder, double seconds, IChainListener next) : IChainListener
{
    private const double Between = 2;

    private double? first;
    private double shown = double.NegativeInfinity;
    private bool told, drawn;

    /// <summary>Gets the chain, once it has begun.</summary>
    public MeasurementChain? Chain { get; private set; }

    /// <inheritdoc/>
    public void Begin(IMeasurement measurement)
    {
        Chain = measurement as MeasurementChain;
        next.Begin(measurement);
    }

    /// <inheritdoc/>
    public void Window(in AssessedWindow window)
    {
        next.Window(window);
        var reading = window.Reading;
        first ??= reading.StartSeconds;
        var gone = reading.StartSeconds + reading.LengthSeconds - first.Value;
        Show(Line(window, Math.Max(0, seconds - gone)), gone);
        if (!told && gone >= seconds / 2 && reading.Motion == MotionState.Running)
        {
            told = true;
            Say("Now switch the feeder off and let it come to rest; the measurement goes on.");
        }
    }

    /// <inheritdoc/>
    public void Several(in SeveralReading reading) => next.Several(reading);

    /// <inheritdoc/>
    public void Decay(in DecayReading decay)
    {
        next.Decay(decay);
        Say($"Coast-down: {TransientWords.Of(decay)}.");
    }

    /// <inheritdoc/>
    public void Start(in StartReading reading) => next.Start(reading);

    /// <inheritdoc/>
    public void Alarm(in AlarmTransition transition)
    {
        next.Alarm(transition);
        if (transition is { Raised: true, Kind: AlarmKind.OverStroke or AlarmKind.Strike })
        {
            Say($"{SessionWords.StopNow[0]} {transition.Words}");
        }
    }

    /// <summary>Ends the line that is drawn in place.</summary>
    public void Close()
    {
        if (drawn)
        {
            writer.WriteLine();
        }

        drawn = false;
    }

    private void Say(string text)
    {
        Close();
        writer.WriteLine("   " + text);
    }

    private void Show(string line, double gone)
    {
        if (terminal)
        {
            writer.Write($"\r{line}\u001b[K");
            drawn = true;
        }
        else if (gone >= shown + Between)
        {
            writer.WriteLine(line);
            shown = gone;
        }
    }

    private string Line(in AssessedWindow window, double left)
    {
        var reading = window.Reading;
        var good = reading is { Quality: WindowQuality.Good, StrokeMetres: not null };
        var stroke = good ? Length.FromMetres(reading.StrokeMetres!.Value).ToString() : "--.--- mm (--.---- in)";
        var words = reading.Strike ? "STRIKE" : good ? ReplayText.Words(window.Verdict) : reading.Motion switch
        {
            MotionState.Stopped => "still",
            MotionState.Starting => "starting",
            MotionState.CoastingDown => "coasting down",
            _ => reading.Reason ?? "not measured",
        };
        return string.Create(CultureInfo.InvariantCulture, $"   {Math.Ceiling(left),3:0} s  {stroke}  {LivePanel.Scale(feeder.Band, good ? reading.StrokeMetres : null)}  {words}");
    }
}
