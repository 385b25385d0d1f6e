using Microsoft.Data.Sqlite;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Outputs.Store;
using StrokeWatch.Tests.Outputs.Store;
using AlarmRow = StrokeWatch.Outputs.Store.AlarmRow;

namespace StrokeWatch.Tests.Outputs.Forwarding;

/// <summary>A store whose rows the store's own writer put there at instants of the test's choice.</summary>
internal sealed class FilledStore : IDisposable
{
    private readonly SqliteConnection connection;
    private readonly RowWriter writer;

    public FilledStore(string path, string feeder = "Sand feeder")
    {
        connection = Database.OpenWriter(new() { Path = path, Feeder = feeder });
        Schema.Ensure(connection);
        writer = new(connection, feeder);
    }

    public void Windows(DateTimeOffset from, int count, double seconds = 0.5) => writer.Commit(
        [.. Enumerable.Range(0, count).Select(i => new WindowRow(from.AddSeconds(seconds * i), StoreFolder.Reading(seconds * i), Verdict.InBand))]);

    public void Window(DateTimeOffset at, WindowReading reading) => writer.Commit([new WindowRow(at, reading, Verdict.InBand)]);

    public void Alarm(DateTimeOffset at, AlarmKind kind = AlarmKind.OverStroke, bool raised = true) =>
        writer.Commit([new AlarmRow(at, new(kind, raised, 1, 1.95e-3, "Over-stroke: stop the feeder."))]);

    public void Step(AlarmStep step) => writer.Commit([new JournalRow(step)]);

    public void Event(DateTimeOffset at, string text) => writer.Commit([new EventRow(at, StoreEventKind.Configuration, text)]);

    public void Run(string sql) => Database.Execute(connection, sql);

    public void Dispose()
    {
        writer.Dispose();
        connection.Dispose();
    }
}
