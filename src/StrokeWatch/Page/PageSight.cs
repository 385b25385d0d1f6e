using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Outputs.Captures;
using StrokeWatch.Outputs.Relay;
using StrokeWatch.Outputs.Store;
using StrokeWatch.Page.Captures;
using StrokeWatch.Page.Tuning;
using StrokeWatch.Pipeline;
using StrokeWatch.Pipeline.Alarms;
using StrokeWatch.Sensors.Live;

namespace StrokeWatch.Page;

/// <summary>All of a run that the page looks at.</summary>
internal sealed record PageSight
{
    /// <summary>Gets the feeder.</summary>
    public required FeederDescription Feeder { get; init; }

    /// <summary>Gets the store.</summary>
    public required SqliteStore Store { get; init; }

    /// <summary>Gets the path of its database.</summary>
    public required string StorePath { get; init; }

    /// <summary>Gets the alarms' lives.</summary>
    public required AlarmDesk Lives { get; init; }

    /// <summary>Gets the table of alarms.</summary>
    public required AlarmTable Table { get; init; }

    /// <summary>Gets the devices with sensors.</summary>
    public required IReadOnlyList<LiveSensorSource> Sources { get; init; }

    /// <summary>Gets what forwards the store.</summary>
    public required IReadOnlyList<PageOutput> Outputs { get; init; }

    /// <summary>Gets what tells how the relay is; it may answer null.</summary>
    public Func<RelayHealth?> Relay { get; init; } = () => null;

    /// <summary>Gets what tells how waveforms of alarms are kept; it may answer null.</summary>
    public Func<CaptureHealth?> Shelf { get; init; } = () => null;

    /// <summary>Gets what tells how the machine stands over weeks; it may answer null.</summary>
    public required Func<MachineStanding?> Machine { get; init; }

    /// <summary>Gets what the tuning session must know; null where none can be held here.</summary>
    public TuningSettings? Tuning { get; init; }

    /// <summary>Gets how waveforms of alarms are kept; null where none are.</summary>
    public AlarmCaptureOptions? Waveforms { get; init; }

    /// <summary>Gets the list of captures.</summary>
    public CaptureList CaptureList => new(Captures, StorePath, Waveforms is null ? null : new(Waveforms));

    /// <summary>Gets the folder of captures; null where there is none.</summary>
    public string? Captures { get; init; }
}
