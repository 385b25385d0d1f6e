using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Measurement.CoastDown;
using StrokeWatch.Measurement.Stations;
using StrokeWatch.Measurement.Supply;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Sources;

namespace StrokeWatch.Pipeline.Ports;

/// <summary>One of several devices with sensors: measured by a chain of its own, on its own clock; what it showed last stands here.</summary>
internal sealed class MeasuredPort : IChainListener
{
    private const double Forgetting = 0.9;
    private readonly FeederDescription part;
    private readonly JointMeasurement joint;
    private readonly PortClock clock = new();
    private readonly MeasurementChain chain;
    private readonly StationReading[] shown;
    private double rate;
    private bool supply;
    private double lastSample;
    private double untold;

    /// <summary>Makes it.</summary>
    /// <param name="joint">What puts the devices together.</param>
    /// <param name="feeder">The feeder.</param>
    /// <param name="places">The places that the device serves.</param>
    /// <param name="delays">The alarms' delays.</param>
    /// <param name="desk">Where stops and starts are read.</param>
    public MeasuredPort(JointMeasurement joint, FeederDescription feeder, IReadOnlyCollection<SensorPlace> places, AlarmDelays delays, IDesk desk)
    {
        this.joint = joint;
        part = feeder with { Sensors = [.. feeder.Sensors.Where(sensor => places.Contains(sensor.Place))] };
        shown = new StationReading[part.Sensors.Count];
        chain = new(part, delays, this, new LeadDesk(desk, () => joint.Leads(this)));
    }

    /// <summary>Gets its sensors in the feeder file's order.</summary>
    public IReadOnlyList<PlacedSensor> Sensors => part.Sensors;

    /// <summary>Gets whether one of them sits on the tray.</summary>
    public bool OnTray => part.Sensors.Any(sensor => SensorPlaces.IsOnTray(sensor.Place));

    /// <summary>Gets its measurement.</summary>
    public IMeasurement Measurement => chain;

    /// <summary>Gets whether nothing comes from it, long enough to be alarmed.</summary>
    public bool Lost { get; private set; }

    /// <summary>Gets when its last window ended, on the host's clock in seconds; minus infinity before the first.</summary>
    public double EndSeconds { get; private set; } = double.NegativeInfinity;

    /// <summary>Gets the length of its longest window lately, in seconds: the last before a silence is cut short.</summary>
    public double WindowSeconds { get; private set; }

    /// <summary>Gets what its sensors showed in its last window, a strike in any window since the last <see cref="Used"/> included.</summary>
    public ReadOnlySpan<StationReading> Shown => shown;

    /// <summary>Gets the stroke of its tray against the body in its last window.</summary>
    public RelativeReading Relative { get; private set; }

    /// <summary>Gets what the supply's channel of its device showed in its last window, the phase against the device's own sensor; null where it has none.</summary>
    public SupplyReading? Supply { get; private set; }

    /// <summary>Gets whether it has shown a window that was not used yet.</summary>
    public bool Fresh { get; private set; }

    /// <summary>Says that what it showed has been used.</summary>
    public void Used() => Fresh = false;

    /// <summary>Takes a block that arrived at a time of the host, in seconds.</summary>
    public void Take(SampleBlock block, SourceInfo info, double host)
    {
        untold = 0;
        if ((block.RateHz ?? info.RateHz) is not { } stated)
        {
            return;
        }

        if (Math.Abs(stated - rate) > 1e-3 * stated || supply != block.HasSupply)
        {
            (rate, supply) = (stated, block.HasSupply);
            chain.Begin(ChainSettings.For(part, info, rate));
        }

        lastSample = block.StartSeconds + block.Count / rate;
        clock.Note(lastSample, host);
        chain.Take(block);
    }

    /// <summary>Says that nothing has come for so many seconds; the alarm of a lost sensor comes of it.</summary>
    public void Silence(double seconds)
    {
        chain.Silence(lastSample + seconds, seconds - untold);
        untold = seconds;
    }

    /// <summary>Says that there will be no more samples.</summary>
    public void Finish() => chain.Finish();

    /// <inheritdoc/>
    public void Begin(IMeasurement measurement) => joint.Began();

    /// <inheritdoc/>
    public void Several(in SeveralReading reading)
    {
        var sensors = reading.Sensors.Span;
        for (var i = 0; i < shown.Length; i++)
        {
            // Clocks drift: once in a while a device has two windows to another's one. Its strike must not be lost with the first.
            var struck = Fresh && shown[i].Reading is { Strike: true } && !sensors[i].Reading.Strike ? shown[i].Reading : sensors[i].Reading;
            shown[i] = sensors[i] with
            {
                Reading = sensors[i].Reading with { Strike = struck.Strike, StrikeScore = struck.StrikeScore, StrikeEvery = struck.StrikeEvery, StrikePossible = struck.StrikePossible, StrikeCarried = struck.StrikeCarried },
            };
        }

        Relative = reading.Relative;
    }

    /// <inheritdoc/>
    public void Window(in AssessedWindow window)
    {
        // What a gap took away is told by the alarm of its sensor; nothing was shown in it.
        if (window.Reading.Quality == WindowQuality.Gap)
        {
            return;
        }

        WindowSeconds = Math.Max(window.Reading.LengthSeconds, Forgetting * WindowSeconds);
        Supply = window.Reading.Supply;
        (Fresh, EndSeconds) = (true, clock.Host(window.Reading.StartSeconds + window.Reading.LengthSeconds));
        joint.Shown(this, window.Reading);
    }

    /// <inheritdoc/>
    public void Decay(in DecayReading decay) => joint.Decay(decay with { StartSeconds = clock.Host(decay.StartSeconds) });

    /// <inheritdoc/>
    public void Start(in StartReading reading) => joint.Start(reading with { StartSeconds = clock.Host(reading.StartSeconds) });

    /// <inheritdoc/>
    public void Alarm(in AlarmTransition transition)
    {
        Lost = transition.Kind == AlarmKind.SensorLost ? transition.Raised : Lost;
        joint.Alarm(this, transition with { AtSeconds = double.IsNegativeInfinity(EndSeconds) ? transition.AtSeconds : clock.Host(transition.AtSeconds) });
    }
}
