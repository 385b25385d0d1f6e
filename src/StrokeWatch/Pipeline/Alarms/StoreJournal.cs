using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Outputs.Store;

namespace StrokeWatch.Pipeline.Alarms;

/// <summary>The journal of alarms in the store.</summary>
/// <param name="store">The store.</param>
/// <param name="heard">Hears that a step is on its way into the store.</param>
/// <param name="beside">Says what is wrong with what is kept beside it, in a sentence; null where nothing is.</param>
internal sealed class StoreJournal(SqliteStore store, Func<string?>? beside = null, Action? heard = null) : IAlarmJournal
{
    /// <inheritdoc/>
    public string? Trouble => store.Health is { State: StoreState.Full or StoreState.Trouble } health ? health.Trouble ?? "the database cannot be written" : beside?.Invoke();

    /// <inheritdoc/>
    public bool Ready => store.Health.State != StoreState.Opening;

    /// <inheritdoc/>
    public Task<bool> Write(AlarmStep step)
    {
        var written = store.Journal(step);
        heard?.Invoke();
        return written;
    }
}
