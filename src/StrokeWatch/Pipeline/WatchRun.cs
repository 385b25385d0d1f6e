using Serilog;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Configuration;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Outputs.Captures;
using StrokeWatch.Outputs.Influx;
using StrokeWatch.Outputs.Mqtt;
using StrokeWatch.Outputs.Relay;
using StrokeWatch.Outputs.Store;
using StrokeWatch.Outputs.Webhook;
using StrokeWatch.Page;
using StrokeWatch.Pipeline.Alarms;
using StrokeWatch.Pipeline.Ports;
using StrokeWatch.Reports;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Sources;
using StrokeWatch.Sensors.Converters;
using StrokeWatch.Sensors.Live;

namespace StrokeWatch.Pipeline;

/// <summary>Joins live sources, the chain, the store, the log, the live line and systemd, and runs them until told to stop.</summary>
internal sealed class WatchRun
{
    /// <summary>Gets the feeder.</summary>
    public required FeederDescription Feeder { get; init; }

    /// <summary>Gets where and how long rows are kept.</summary>
    public required StoreSettings Store { get; init; }

    /// <summary>Gets how long a window may wait for its commit.</summary>
    public TimeSpan CommitInterval { get; init; } = TimeSpan.FromSeconds(10);

    /// <summary>Gets the alarms' delays.</summary>
    public AlarmDelays Delays { get; init; } = new();

    /// <summary>Gets the least important message still logged.</summary>
    public LogLevelName LogLevel { get; init; } = LogLevelName.Information;

    /// <summary>Gets whether alarms go to the log; on a terminal the live line's place shows them already.</summary>
    public required bool Terminal { get; init; }

    /// <summary>Gets where results go.</summary>
    public required TextWriter Output { get; init; }

    /// <summary>Gets what is learned and followed over weeks; null where nothing is.</summary>
    public WatchHistory? History { get; init; }

    /// <summary>Gets the machine book that running is counted into; null where none is kept.</summary>
    public string? Book { get; init; }

    /// <summary>Gets whether the book lies beside the feeder file, so that a feeder of another name is the same one, renamed.</summary>
    public bool BookRenames { get; init; }

    /// <summary>Gets the time-series server that rows are forwarded to; null where there is none.</summary>
    public InfluxOptions? Influx { get; init; }

    /// <summary>Gets where the page is served; null where it is not.</summary>
    public PageSettings? Page { get; init; }

    /// <summary>Gets the folder of captures that the page shows where no waveforms of alarms are kept; null where there is none.</summary>
    public string? CapturesFolder { get; init; }

    /// <summary>Gets the broker that is told; null where there is none.</summary>
    public MqttOptions? Mqtt { get; init; }

    /// <summary>Gets which waveforms of alarms are kept; null where none are.</summary>
    public AlarmCaptureOptions? Captures { get; init; }

    /// <summary>Gets whom each step of an alarm is posted to; null where nobody is.</summary>
    public WebhookOptions? Webhook { get; init; }

    /// <summary>Gets the line that drives a relay; null where there is none.</summary>
    public RelayOptions? Relay { get; init; }

    /// <summary>Gets what opens that line; null for a chip of this machine.</summary>
    public Func<IRelayLine>? RelayLine { get; init; }

    /// <summary>Gets the converter that takes the supply's voltage beside the sensor; null where there is none.</summary>
    public ConverterSettings? Supply { get; init; }

    /// <summary>Gets the clock.</summary>
    public required TimeProvider Time { get; init; }

    /// <summary>Gets what takes the raw blocks of a single source, made once that is there.</summary>
    public Func<LiveSensorSource, IReadOnlyList<IBlockListener>> Blocks { get; init; } = _ => [];

    /// <summary>Runs with one source; gives how many alarms were raised.</summary>
    /// <param name="open">Opens the source; it is told whom to tell of the sensor's fate.</param>
    /// <param name="stop">Ends the run.</param>
    public int Run(Func<Action<SensorEvent>, LiveSensorSource> open, CancellationToken stop) => Run([open], stop);

    /// <summary>Runs; gives how many alarms were raised.</summary>
    /// <param name="open">Opens each source, one or several with clocks of their own; it is told whom to tell of the sensor's fate.</param>
    /// <param name="stop">Ends the run.</param>
    public int Run(IReadOnlyList<Func<Action<SensorEvent>, LiveSensorSource>> open, CancellationToken stop)
    {
        var journal = Environment.GetEnvironmentVariable("JOURNAL_STREAM") is { Length: > 0 };
        var panel = new LivePanel(Output, Terminal, Feeder, Time);
        using var log = Logs.Create(LogLevel, journal, Terminal ? panel : null);
        using var systemd = SystemdNotifier.FromEnvironment();
        using var store = new SqliteStore(
            new() { Path = Store.Path, Feeder = Feeder.Name, KeepDays = Store.KeepDays, CommitInterval = CommitInterval, NoteInterruption = true, NoteClock = true, FirstWindowAtOnce = true }, Time);
        using var influx = Forwarding.Start(Influx, Store.Path, Feeder, Time, log);
        using var mqtt = Forwarding.Start(Mqtt, Store.Path, Feeder.Name, Time, log);
        using var webhook = Forwarding.Start(Webhook, Store.Path, Feeder.Name, Time, log);
        using var relay = RelayListener.Start(Relay, RelayLine, Time, log);
        var stored = new StoreListener(store, log);
        var alarms = new AlarmLog(Terminal ? Serilog.Core.Logger.None : log);
        _ = store.Event(StoreEventKind.Start, $"{Feeder.Name}: {new Assessment.Verdicts.BandJudge(Feeder.Band)}");

        List<LiveSensorSource> sources = [.. open.Select(one => one(happened =>
        {
            stored.Sensor(happened);
            log.Information("{Words:l}", happened.Words);
        }))];
        using var captures = CaptureShelf.Start(Captures, sources, store, Time, log);
        using var shelf = new BookShelf(Book, Time, Feeder.Name, BookRenames);
        using var desk = new BackgroundDesk(log);
        var lives = Lives(new StoreJournal(store, () => captures?.Trouble, () => Forwarding.Alarmed(mqtt, webhook)), log, stored, alarms, panel, captures);
        desk.Post(() => KeptAlarms.Read(Store.Path, Feeder.Name, log) is { Count: > 0 } last ? () => lives.Resume(last) : null);
        IReadOnlyList<IChainListener> book = shelf.Kept ? [new BookListener(shelf, Time, desk, log)] : [];
        var weeks = Weeks(desk, lives, log, out var keeper);
        using var page = Page is null ? null : PageShelf.Open(
            Page,
            new()
            {
                Feeder = Feeder,
                Store = store,
                StorePath = Store.Path,
                Lives = lives,
                Table = AlarmTable.Of(Delays),
                Sources = sources,
                Outputs = PageOutputs.Of(influx, mqtt, webhook),
                Relay = () => relay?.Health,
                Shelf = () => captures?.Health,
                Machine = () => keeper?.Now,
                Captures = Captures?.Folder ?? CapturesFolder,
                Waveforms = Captures,
                Tuning = new(Feeder, Book, BookRenames, History?.BaselinePath),
            },
            Time, log, panel.Say);
        var listener = new IsolatedListeners(log, [lives, .. weeks, .. book, .. Forwarding.Hear(mqtt, Feeder), .. relay is null ? [] : (IChainListener[])[relay], .. page?.Listeners ?? []]);
        using var supply = Supply is { } converter ? new SupplyMeter(converter, Time, words => log.Information("{Words:l}", words)) : null;
        IChainListener first = supply is null ? listener : new SupplyBeside(supply, Feeder.Supply?.VoltsPerUnit ?? 1, listener);
        var beaten = Time.GetTimestamp();
        var ready = false;
        void Beat(SourceState state)
        {
            Forwarding.Watch(influx, mqtt, webhook, relay, lives);
            lives.Deliver();
            relay?.Beat(lives.Now);
            panel.Beat();
            page?.Board.Look();
            if (!ready)
            {
                systemd.Ready($"watching {Feeder.Name}");
                ready = true;
            }
            else if (systemd.WatchdogPeriod is { } period && Time.GetElapsedTime(beaten) >= 0.5 * period)
            {
                systemd.Watchdog();
                systemd.Status(state == SourceState.Samples ? $"measuring {Feeder.Name}" : "no samples from the sensor");
                beaten = Time.GetTimestamp();
            }
        }

        try
        {
            if (sources is [var single])
            {
                new Daemon(Feeder, single, Delays, first, [.. captures is null ? [] : (IBlockListener[])[captures.Only(single)], .. page?.Blocks(single) ?? [], .. Blocks(single)], Time, desk).Run(Beat, stop);
            }
            else
            {
                new PortsDaemon(Feeder, sources, Delays, first, Time, desk)
                {
                    Blocks = (port, block, info) =>
                    {
                        captures?.Take(port, block, info);
                        page?.Take(port, block, info);
                    },
                }.Run(Beat, stop);
            }
        }
        finally
        {
            sources.ForEach(source => source.Dispose());
        }

        systemd.Stopping();
        sources.ForEach(source => Count(source, log));
        if (desk.Dropped + desk.Failed > 0)
        {
            log.Warning("{Dropped} pieces of work beside the measurement were dropped, {Failed} failed", desk.Dropped, desk.Failed);
        }

        _ = store.Event(StoreEventKind.Stop, "stopped in order");
        return alarms.Raised;
    }

    /// <summary>Makes what keeps the alarms' lives; the store's rows are the record, log and panel what people see.</summary>
    private AlarmDesk Lives(IAlarmJournal journal, ILogger log, StoreListener stored, AlarmLog alarms, LivePanel panel, CaptureShelf? captures)
    {
        AlarmDesk? lives = null;
        void Failed(string name) => lives?.Failed(name);
        lives = new(
            AlarmTable.Of(Delays), journal, new IsolatedListeners(log, stored) { Failed = Failed }, new IsolatedListeners(log, [alarms, panel, .. captures is null ? [] : (IChainListener[])[captures]]) { Failed = Failed }, Time);
        return lives;
    }

    private static void Count(LiveSensorSource source, ILogger log)
    {
        var name = source.Info.Places.Count == 0 ? "Sensor" : $"Sensor {string.Join(", ", source.Info.Places.Distinct().Select(SensorPlaces.Name))}";
        foreach (var (reason, count) in source.Counters.Rejected)
        {
            log.Information("{Name:l}: {Count} rejected, {Reason:l}", name, count, reason);
        }

        log.Information(
            "{Name:l}: {Samples} samples, {Gaps} gaps, {Missing} samples missing", name, source.Counters.Samples, source.Counters.Gaps, source.Counters.MissingSamples);
    }

    /// <summary>Makes what follows the machine over weeks; what the store holds of it is read at the desk.</summary>
    private IReadOnlyList<IChainListener> Weeks(IDesk desk, IChainListener outputs, ILogger log, out MachineKeeper? known)
    {
        known = null;
        if (History is not { } history)
        {
            return [];
        }

        var keeper = known = new MachineKeeper(history, outputs, log);
        desk.Post(() => keeper.Resume(KeptStretches.Read(Store.Path, Feeder.Name, log)));
        return [new StretchListener(Feeder, history.Stretches, Time, desk, keeper.Judge)];
    }
}
