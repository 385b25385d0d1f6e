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

namespace StrokeWatch.Pipeline.Ports;

/// <summary>
/// Puts the readings of several devices, each on its own clock, together into one that is judged: the mean stroke of the tray's sensors, the largest against the limit,
/// a strike where any hears it. The first device with a tray sensor that gives windows sets the pace.
/// </summary>
/// <remarks>Samples of different clocks are never set against each other: strokes are compared, phases are not. Times are the host's, in seconds from the start.</remarks>
internal sealed class JointMeasurement : IMeasurement
{
    /// <summary>A device whose last window is older than so many of its windows gives nothing to a reading.</summary>
    private const double StaleWindows = 2.5;

    private const string OwnClocks = "tray and body are sampled by clocks of their own: their motions cannot be set against each other";
    private readonly FeederDescription feeder;
    private readonly IChainListener listener;
    private readonly FeederAssessor assessor;
    private readonly Action<AlarmTransition> alarmed;
    private readonly List<MeasuredPort> ports = [];
    private readonly StationReading[] all;
    private readonly StationReading[] there;
    private readonly StationTraits[] traits;
    private StationTraits[] known = [];
    private double lastEnd = double.NaN;

    /// <summary>Makes it for a feeder with several sensors; <see cref="Add"/> adds the devices.</summary>
    public JointMeasurement(FeederDescription feeder, AlarmDelays delays, IChainListener listener)
    {
        this.feeder = feeder;
        this.listener = listener;
        assessor = new(feeder, delays);
        alarmed = Judged;
        all = new StationReading[feeder.Sensors.Count];
        there = new StationReading[all.Length];
        traits = new StationTraits[all.Length];
    }

    /// <inheritdoc/>
    public MeterSettings? Settings { get; private set; }

    /// <inheritdoc/>
    public JitterReading? Jitter => ports[0].Measurement.Jitter;

    /// <inheritdoc/>
    public double HiddenCut => ports.Max(port => port.Measurement.HiddenCut);

    /// <inheritdoc/>
    public OrientationReading? TakeOrientation() => null;

    /// <summary>Adds a device; those whose first tray sensor stands earlier in the feeder file come first, a body alone last.</summary>
    public void Add(MeasuredPort port)
    {
        ports.Add(port);
        ports.Sort((one, other) => First(one).CompareTo(First(other)));
    }

    /// <summary>Says whether a device is the one that sets the pace.</summary>
    public bool Leads(MeasuredPort port) => ReferenceEquals(port, Pacer(port.EndSeconds));

    /// <summary>Hears that a device begins to measure.</summary>
    public void Began()
    {
        Settings = JointSettings.Of(feeder, ports);
        if (Settings is not null)
        {
            known = [.. Settings.Stations.Select(StationTraits.Of)];
            listener.Begin(this);
        }
    }

    /// <summary>Hears a device's window; a reading of all comes of it where the device sets the pace.</summary>
    public void Shown(MeasuredPort port, in WindowReading reading)
    {
        if (Settings is null || !Leads(port))
        {
            return;
        }

        var end = port.EndSeconds;
        var start = Math.Max(end - reading.LengthSeconds, double.IsNaN(lastEnd) ? double.NegativeInfinity : lastEnd);
        if (start - lastEnd > StaleWindows * reading.LengthSeconds)
        {
            Judge(Gap(lastEnd, start));
        }

        if (end > start)
        {
            Judge(Together(port, start, end));
        }
    }

    /// <summary>Hears a free decay.</summary>
    public void Decay(in DecayReading decay) => listener.Decay(decay);

    /// <summary>Hears what the beat of a start told.</summary>
    public void Start(in StartReading reading) => listener.Start(reading);

    /// <summary>Hears an alarm of a device's own chain: only what belongs to that device alone goes on, all else is judged over all of them.</summary>
    public void Alarm(MeasuredPort port, in AlarmTransition transition)
    {
        if (PortAlarms.Own(transition.Kind))
        {
            listener.Alarm(PortAlarms.Of(transition, port, ports.Exists(other => other != port && other is { OnTray: true, Lost: false })));
        }
    }

    private void Judged(AlarmTransition transition)
    {
        if (!PortAlarms.Own(transition.Kind))
        {
            listener.Alarm(transition);
        }
    }

    private int First(MeasuredPort port)
    {
        for (var i = 0; i < feeder.Sensors.Count; i++)
        {
            if (SensorPlaces.IsOnTray(feeder.Sensors[i].Place) && port.Sensors.Any(sensor => sensor.Place == feeder.Sensors[i].Place))
            {
                return i;
            }
        }

        return int.MaxValue;
    }

    private MeasuredPort? Pacer(double at)
    {
        foreach (var port in ports)
        {
            if (Live(port, at))
            {
                return port;
            }
        }

        return null;
    }

    private static bool Live(MeasuredPort port, double at) => !port.Lost && at - port.EndSeconds <= StaleWindows * port.WindowSeconds;

    private void Judge(in WindowReading reading)
    {
        lastEnd = reading.StartSeconds + reading.LengthSeconds;
        var verdict = assessor.Take(reading, alarmed);
        listener.Window(new(reading, verdict));
    }

    private WindowReading Together(MeasuredPort pacer, double start, double end)
    {
        var (count, lead, relative) = (0, -1, new RelativeReading(null, null, OwnClocks));
        for (var i = 0; i < all.Length; i++)
        {
            var place = feeder.Sensors[i].Place;
            var (port, index) = Find(place);
            if (!Live(port, end))
            {
                all[i] = new() { Place = place, OtherClock = port != pacer, Reading = Gap(start, end) };
                continue;
            }

            var shown = port.Shown[index] with { Reading = port.Shown[index].Reading with { StartSeconds = start, LengthSeconds = end - start } };
            all[i] = port == pacer ? shown : shown with { OtherClock = true, PhaseRadians = null, PhaseNoiseRadians = null };
            relative = place == SensorPlace.Body && port.OnTray ? port.Relative : relative;
            (there[count], traits[count]) = (all[i], known[i]);
            lead = Better(lead, count) ? count : lead;
            count++;
        }

        listener.Several(new(all, relative));
        foreach (var port in ports)
        {
            port.Used();
        }

        return TrayReading.Of(traits.AsSpan(0, count), there.AsSpan(0, count), lead) with { Supply = pacer.Supply ?? ports.Find(port => port.Supply is not null && Live(port, end))?.Supply };
    }

    /// <summary>Says whether a sensor should lead in place of another: on the tray before the body, one that gives a stroke before one that does not.</summary>
    private bool Better(int lead, int other) => lead < 0
        || (traits[other].OnTray && (!traits[lead].OnTray || (there[other].Counts && !there[lead].Counts)));

    private (MeasuredPort Port, int Index) Find(SensorPlace place)
    {
        foreach (var port in ports)
        {
            for (var i = 0; i < port.Sensors.Count; i++)
            {
                if (port.Sensors[i].Place == place)
                {
                    return (port, i);
                }
            }
        }

        throw new InvalidOperationException($"No device serves the place {SensorPlaces.Name(place)}.");
    }

    private static WindowReading Gap(double from, double to) => new()
    {
        StartSeconds = from,
        LengthSeconds = to - from,
        Quality = WindowQuality.Gap,
        Motion = MotionState.Unknown,
        Reason = "nothing comes from the sensor",
    };
}
