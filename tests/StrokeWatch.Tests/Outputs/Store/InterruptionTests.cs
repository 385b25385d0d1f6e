using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Outputs.Store;
using Xunit;
using static StrokeWatch.Tests.Outputs.Store.StoreFolder;

namespace StrokeWatch.Tests.Outputs.Store;

public sealed class InterruptionTests : IDisposable
{
    private static readonly DateTimeOffset Future = new(2100, 1, 1, 0, 0, 0, TimeSpan.Zero);
    private readonly StoreFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public async Task A_start_after_an_end_without_a_stop_notes_from_when_until_when_nothing_was_written()
    {
        await Run(stop: false, TimeSpan.FromHours(3));
        await Run(stop: true, TimeSpan.FromHours(1));
        await Run(stop: true, TimeSpan.FromHours(1));
        var gap = Assert.Single(Gaps());
        Assert.Contains("nothing was written from 2026-03-29T12:00:02Z until 2026-03-29T15:00:02Z", gap.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_clock_that_went_back_is_said_and_gives_no_stretch_of_less_than_nothing()
    {
        await Run(stop: false, TimeSpan.Zero);
        var early = new Microsoft.Extensions.Time.Testing.FakeTimeProvider(DateTimeOffset.UnixEpoch.AddSeconds(9));
        using (var store = new SqliteStore(folder.Options with { NoteInterruption = true }, early))
        {
            Assert.True(await Soon(store.Event(StoreEventKind.Start, "started")));
            _ = store.Window(Reading(0), Verdict.InBand);
        }

        Assert.Contains("the clock stands earlier", Assert.Single(Gaps()).Text, StringComparison.Ordinal);
        using var reader = new StoreReader(folder.Database);
        Assert.Equal(1970, reader.Windows(DateTimeOffset.UnixEpoch.AddYears(-1), Future)[0].Utc.Year);
    }

    private async Task Run(bool stop, TimeSpan pause)
    {
        using (var store = new SqliteStore(folder.Options with { NoteInterruption = true }, folder.Clock))
        {
            Assert.True(await Soon(store.Event(StoreEventKind.Start, "started")));
            folder.Clock.Advance(TimeSpan.FromSeconds(2));
            _ = store.Window(Reading(1), Verdict.InBand);
            if (stop)
            {
                Assert.True(await Soon(store.Event(StoreEventKind.Stop, "stopped in order")));
            }
        }

        folder.Clock.Advance(pause);
    }

    private IReadOnlyList<StoredEvent> Gaps()
    {
        using var reader = new StoreReader(folder.Database);
        return [.. reader.Events(DateTimeOffset.UnixEpoch, Future).Where(stored => stored.Kind == StoreEventKind.Gap)];
    }
}
