using Microsoft.Extensions.Time.Testing;
using Serilog.Core;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Assessment.Watching;
using StrokeWatch.Configuration;
using StrokeWatch.Measurement.CoastDown;
using StrokeWatch.Outputs.Store;
using StrokeWatch.Pipeline;
using StrokeWatch.Sensors.Simulated.Histories;

namespace StrokeWatch.Tests.Pipeline.Weeks;

/// <summary>The daemon's own chain over the captures of a history, with a real store and a file of baselines, as fast as the machine allows.</summary>
internal sealed class WeeksRun : IChainListener, IDisposable
{
    private readonly FaultHistory history;
    private readonly FakeTimeProvider clock;

    public WeeksRun(FaultHistory history)
    {
        this.history = history;
        clock = new(history.Captures[0].Recorded.AddMinutes(-1));
    }

    public string Folder { get; } = Directory.CreateTempSubdirectory("strokewatch-weeks-").FullName;

    public string Database => Path.Combine(Folder, "store.db");

    public string Baseline => Path.Combine(Folder, "soda-ash.baseline.json");

    /// <summary>Gets the alarms of a changed machine.</summary>
    public List<AlarmTransition> Alarms { get; } = [];

    public List<FindingTransition> Findings { get; } = [];

    /// <summary>Gets how it was set: stretches as short as the captures are.</summary>
    public WatchHistory Settings => new()
    {
        Stretches = new() { LongestSeconds = 20, LeastSeconds = 1.5 },
        Learning = new() { Enough = 20, Shortest = TimeSpan.FromDays(3), Longest = TimeSpan.FromDays(60) },
        BaselinePath = Baseline,
    };

    /// <summary>Starts the daemon, plays some captures, and stops it in order.</summary>
    public void Play(Range which, WatchHistory? settings = null)
    {
        settings ??= Settings;
        using var source = new WeeksSource(history.Captures.Take(which), clock);
        using var desk = new InlineDesk();
        using var store = new SqliteStore(
            new() { Path = Database, Feeder = history.Feeder.Name, BallastBytes = 0, CommitInterval = TimeSpan.FromDays(1) }, clock);
        var outputs = new IsolatedListeners(Logger.None, new StoreListener(store, Logger.None), this);
        var keeper = new MachineKeeper(settings, outputs, Logger.None);
        desk.Post(() => keeper.Resume(KeptStretches.Read(Database, history.Feeder.Name, Logger.None)));
        var weeks = new StretchListener(history.Feeder, settings.Stretches, clock, desk, keeper.Judge);
        new Daemon(history.Feeder, source, new(), new IsolatedListeners(Logger.None, outputs, weeks), [], clock, desk).Run(_ => { }, default);
    }

    public T Read<T>(Func<StoreReader, T> read)
    {
        using var reader = new StoreReader(Database);
        return read(reader);
    }

    public void Window(in AssessedWindow window)
    {
    }

    public void Decay(in DecayReading decay)
    {
    }

    public void Alarm(in AlarmTransition transition)
    {
        if (transition.Kind == AlarmKind.MachineChanged)
        {
            Alarms.Add(transition);
        }
    }

    public void Finding(FindingTransition transition) => Findings.Add(transition);

    public void Dispose() => Directory.Delete(Folder, recursive: true);
}
