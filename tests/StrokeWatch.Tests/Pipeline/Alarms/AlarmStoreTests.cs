using System.Diagnostics;
using Microsoft.Data.Sqlite;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Measurement.CoastDown;
using StrokeWatch.Outputs.Store;
using StrokeWatch.Pipeline;
using StrokeWatch.Pipeline.Alarms;
using StrokeWatch.Tests.Outputs.Store;
using Xunit;
using Xunit.Abstractions;

namespace StrokeWatch.Tests.Pipeline.Alarms;

/// <summary>The desk of alarms with a real database, in real time.</summary>
[Collection(Undisturbed.Name)]
public sealed class AlarmStoreTests(ITestOutputHelper output) : IChainListener, IDisposable
{
    private static readonly DateTimeOffset Future = new(2100, 1, 1, 0, 0, 0, TimeSpan.Zero);
    private readonly StoreFolder folder = new();
    private readonly List<(AlarmTransition Alarm, int Rows)> shown = [];
    private bool look = true;

    public void Dispose() => folder.Dispose();

    [Fact]
    public async Task Whoever_hears_of_an_alarm_finds_its_step_in_the_database_already()
    {
        using var store = Store();
        Assert.True(await StoreFolder.Soon(store.Event(StoreEventKind.Start, "started")));
        var desk = Desk(store);
        var taken = new List<double>();
        for (var i = 0; i < 20; i++)
        {
            var watch = Stopwatch.StartNew();
            desk.Alarm(new(AlarmKind.HighStroke, i % 2 == 0, i, 1.8e-3, $"number {i}"));
            Until(desk, () => shown.Count == i + 1, 10);
            taken.Add(watch.Elapsed.TotalMilliseconds);
        }

        output.WriteLine(FormattableString.Invariant($"alarm to effect, written first: median {taken.Order().ElementAt(10):0.0} ms, worst {taken.Max():0.0} ms; {desk.Unwritten} unwritten"));

        // On a disk that is busy for longer than the patience the row may come later: those that were written first were there when they were heard of.
        Assert.True(shown.Count(heard => heard.Rows > shown.IndexOf(heard)) >= 20 - desk.Unwritten);
        Assert.InRange(desk.Unwritten, 0, 10);
    }

    [Fact]
    public async Task Behind_a_locked_database_the_alarm_shows_all_the_same_and_its_steps_are_written_when_the_lock_is_gone()
    {
        using var store = Store();
        Assert.True(await StoreFolder.Soon(store.Event(StoreEventKind.Start, "started")));
        var desk = Desk(store);
        look = false;
        using (var other = new SqliteConnection($"Data Source={folder.Database};Pooling=false"))
        {
            other.Open();
            Execute(other, "BEGIN IMMEDIATE");
            var watch = Stopwatch.StartNew();
            desk.Alarm(new(AlarmKind.OverStroke, true, 1, 1.95e-3, "OVER-STROKE"));
            Until(desk, () => shown.Count == 1, 10);
            output.WriteLine(FormattableString.Invariant($"shown unwritten after {watch.Elapsed.TotalSeconds:0.00} s"));
            Assert.InRange(watch.Elapsed.TotalSeconds, 0.2, 5);
            Assert.Empty(Journal());
            Until(desk, () => shown.Count == 2, 30);
            Assert.Equal(AlarmKind.StoreTrouble, shown[1].Alarm.Kind);
            Execute(other, "ROLLBACK");
        }

        Until(desk, () => shown.Count == 3, 40);
        Assert.Equal((AlarmKind.StoreTrouble, false), (shown[2].Alarm.Kind, shown[2].Alarm.Raised));
        Until(desk, () => Journal().Count == 3, 20);
        Assert.Equal(
            [(AlarmKind.OverStroke, AlarmAct.Activate), (AlarmKind.StoreTrouble, AlarmAct.Activate), (AlarmKind.StoreTrouble, AlarmAct.Clear)],
            Journal().Select(step => (step.Id.Kind, step.Act)));
    }

    void IChainListener.Window(in AssessedWindow window)
    {
    }

    void IChainListener.Decay(in DecayReading decay)
    {
    }

    void IChainListener.Alarm(in AlarmTransition transition) => shown.Add((transition, look ? Journal().Count : 0));

    private static void Execute(SqliteConnection connection, string sql)
    {
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        command.ExecuteNonQuery();
    }

    private SqliteStore Store() => new(folder.Options with { CommitInterval = TimeSpan.FromSeconds(1) }, TimeProvider.System);

    private AlarmDesk Desk(SqliteStore store) => new(AlarmTable.Of(new()), new StoreJournal(store), new Silent(), this, TimeProvider.System);

    private IReadOnlyList<AlarmStep> Journal()
    {
        using var reader = new StoreReader(folder.Database);
        return [.. reader.Journal(DateTimeOffset.UnixEpoch, Future).Select(row => row.Step)];
    }

    private static void Until(AlarmDesk desk, Func<bool> come, double seconds)
    {
        for (var watch = Stopwatch.StartNew(); !come();)
        {
            desk.Deliver();
            Assert.True(watch.Elapsed.TotalSeconds < seconds, "nothing came in time");
            Thread.Sleep(2);
        }
    }

    private sealed class Silent : IChainListener
    {
        public void Window(in AssessedWindow window)
        {
        }

        public void Decay(in DecayReading decay)
        {
        }

        public void Alarm(in AlarmTransition transition)
        {
        }
    }
}
