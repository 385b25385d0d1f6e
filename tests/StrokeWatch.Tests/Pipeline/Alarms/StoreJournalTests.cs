using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Outputs.Store;
using StrokeWatch.Pipeline.Alarms;
using StrokeWatch.Tests.Outputs.Store;
using Xunit;

namespace StrokeWatch.Tests.Pipeline.Alarms;

public sealed class StoreJournalTests : IDisposable
{
    private readonly StoreFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public async Task Trouble_beside_the_store_is_its_trouble_and_each_step_is_heard_of_once()
    {
        using var store = new SqliteStore(folder.Options, folder.Clock);
        string? full = null;
        var heard = 0;
        var journal = new StoreJournal(store, () => full, () => heard++);
        Assert.True(await StoreFolder.Soon(journal.Write(new(
            new(AlarmKind.Strike), AlarmAct.Activate, AlarmState.Normal, AlarmState.Unacknowledged, AlarmState.Unacknowledged, StoreFolder.Noon, "measurement", "", null))));
        Assert.Equal((1, (string?)null), (heard, journal.Trouble));
        full = "waveforms of alarms cannot be kept in captures (the disk is full)";
        Assert.Equal(full, journal.Trouble);
    }
}
