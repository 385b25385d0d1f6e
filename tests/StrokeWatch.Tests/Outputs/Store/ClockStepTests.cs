using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Outputs.Store;
using Xunit;
using static StrokeWatch.Tests.Outputs.Store.StoreFolder;

namespace StrokeWatch.Tests.Outputs.Store;

public sealed class ClockStepTests : IDisposable
{
    private readonly StoreFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public async Task Steps_of_the_clock_by_hours_and_from_1970_lose_no_row_and_stop_no_commit()
    {
        var time = new SteppedTime(DateTimeOffset.UnixEpoch.AddSeconds(30) - TimeProvider.System.GetUtcNow());
        TimeSpan[] steps = [TimeSpan.Zero, Noon - DateTimeOffset.UnixEpoch, TimeSpan.FromHours(-5), TimeSpan.FromHours(11), TimeSpan.FromHours(-6)];
        using (var store = new SqliteStore(folder.Options with { CommitInterval = TimeSpan.FromMilliseconds(50) }, time))
        {
            for (var n = 0; n < steps.Length; n++)
            {
                time.Offset += steps[n];

                // No alarm and no flush: the timer alone must bring the window in.
                Assert.True(await Soon(store.Window(Reading(n), Verdict.InBand)), $"step {n}");
                Assert.True(await Soon(store.Alarm(Alarm(n))), $"step {n}");
            }
        }

        using var reader = new StoreReader(folder.Database);
        Assert.Equal([0, 1, 2, 3, 4], reader.Windows(DateTimeOffset.UnixEpoch, Noon.AddYears(100)).OrderBy(window => window.Id).Select(window => window.Reading.StartSeconds));
        Assert.Equal(steps.Length, reader.Alarms(DateTimeOffset.UnixEpoch, Noon.AddYears(100)).Count);
        Assert.Null(reader.IntegrityCheck());
    }

    /// <summary>The real clock and its timers, its date moved.</summary>
    private sealed class SteppedTime(TimeSpan offset) : TimeProvider
    {
        public TimeSpan Offset { get; set; } = offset;

        public override DateTimeOffset GetUtcNow() => System.GetUtcNow() + Offset;
    }
}
