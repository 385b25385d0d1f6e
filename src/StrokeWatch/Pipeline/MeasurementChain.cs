using StrokeWatch.Assessment;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Measurement;
using StrokeWatch.Measurement.CoastDown;
using StrokeWatch.Measurement.Orientation;
using StrokeWatch.Measurement.Stations;
using StrokeWatch.Measurement.Stroke;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Pipeline;

/// <summary>The one way from samples to verdicts and alarms; the daemon and replay share it, only their sources differ.</summary>
internal sealed class MeasurementChain : IWindowSink, IMeasurement
{
    /// <summary>Less than the shortest delay of the lost-sensor alarm: what came before a silence must be judged before it.</summary>
    private const double SilenceCounts = 0.4;

    private readonly FeederDescription feeder;
    private StrokeMeter? meter;
    private SampleRepair? repair;
    private readonly FeederAssessor assessor;
    private readonly IChainListener listener;
    private readonly IDesk desk;
    private readonly Action<AlarmTransition> alarmed;
    private readonly SecondEar? ear;
    private readonly IWindowSink sink;
    private double untold;
    private bool quiet;

    /// <summary>Makes a chain for a feeder; <see cref="Begin"/> says what its samples will be like.</summary>
    /// <param name="feeder">The feeder.</param>
    /// <param name="delays">The alarms' delays.</param>
    /// <param name="listener">Hears what is measured and alarmed.</param>
    /// <param name="desk">Where stops and starts are read; at once and on the spot where not given.</param>
    /// <param name="ear">Who listens to windows beside the measurement, which delays what is told by some windows; null where it is done at once.</param>
    public MeasurementChain(FeederDescription feeder, AlarmDelays delays, IChainListener listener, IDesk? desk = null, SecondEar? ear = null)
    {
        this.ear = ear;
        ear?.GiveTo(this);
        sink = ear ?? (IWindowSink)this;
        this.feeder = feeder;
        this.desk = desk ?? new InlineDesk();
        assessor = new(feeder, delays);
        this.listener = listener;
        alarmed = transition => listener.Alarm(transition);
    }

    /// <summary>Gets where gravity and the tray's motion stand in the sensor's axes, since the last beginning; null before it.</summary>
    public OrientationReading? Orientation => meter?.Orientation?.Read();

    /// <summary>Gets the same for each of several sensors, in the order of the settings; empty with one, or before the first beginning.</summary>
    public IReadOnlyList<OrientationReading> Orientations => [.. (meter?.Orientations ?? []).Select(tally => tally.Read())];

    /// <inheritdoc/>
    public JitterReading? Jitter => meter?.Jitter;

    /// <inheritdoc/>
    public double HiddenCut => meter?.HiddenCut ?? 0;

    /// <inheritdoc/>
    public MeterSettings? Settings => repair?.Settings;

    /// <inheritdoc/>
    public OrientationReading? TakeOrientation()
    {
        var reading = Orientation;
        meter?.Orientation?.Clear();
        return reading;
    }

    /// <summary>Gets the active alarms.</summary>
    public IEnumerable<AlarmKind> ActiveAlarms => assessor.Alarms.Active;

    /// <summary>Begins to measure, or begins anew with another rate or other axes; what the meter still held is measured first.</summary>
    /// <param name="settings">What the meter must know, full scales as the sensors read.</param>
    /// <param name="numberRail">The size in m/s² at which the source's own range of numbers ends; null where it does not.</param>
    public void Begin(MeterSettings settings, double? numberRail = null)
    {
        Finish();
        repair = new(feeder, settings, numberRail);
        meter = new(repair.Settings with { ListenLater = settings.Stations.Count == 0 ? ear : null });
        listener.Begin(this);
    }

    /// <summary>Takes a block of samples as read, after <see cref="Begin"/>; a calibrated sensor's are corrected in place.</summary>
    public void Take(SampleBlock block)
    {
        (untold, quiet) = (0, false);
        repair!.Apply(block);
        meter!.Add(block, sink);
    }

    /// <summary>Says that the source has been silent for a while, on its way to the lost-sensor alarm.</summary>
    /// <param name="untilSeconds">The time now, on the source's axis.</param>
    /// <param name="silentSeconds">How much silence has been added since this was last said.</param>
    public void Silence(double untilSeconds, double silentSeconds)
    {
        untold += silentSeconds;
        if (!quiet && untold < SilenceCounts)
        {
            return;
        }

        if (!quiet)
        {
            quiet = true;
            meter?.Flush(sink);
            ear?.Finish();
        }

        assessor.Alarms.Silence(untilSeconds, untold, alarmed);
        untold = 0;
    }

    /// <summary>Says that there will be no more samples.</summary>
    public void Finish()
    {
        meter?.Finish(sink);
        ear?.Finish();
    }

    /// <inheritdoc/>
    public void Window(in WindowReading reading)
    {
        var verdict = assessor.Take(reading, alarmed);
        listener.Window(new(reading, verdict));
    }

    /// <inheritdoc/>
    public void Several(in SeveralReading reading) => listener.Several(reading);

    /// <inheritdoc/>
    public void Transient(CaughtTransient transient) => desk.Post(() => transient.Read() is { } tell ? () => tell(this) : null);

    /// <inheritdoc/>
    public void Decay(in DecayReading reading) => listener.Decay(reading);

    /// <inheritdoc/>
    public void Start(in StartReading reading) => listener.Start(reading);
}
