using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Outputs.Store;

namespace StrokeWatch.Pipeline.Alarms;

/// <summary>The journal of alarms in the store.</summary>
internal sealed class StoreJournal(SqliteStore store) : IAlarmJournal
{
    /// <inheritdoc/>
    public string? Trouble => store.Health is { State: StoreState.Full or StoreState.Trouble } health ? health.Trouble ?? "the database cannot be written" : null;

    /// <inheritdoc/>
    public bool Ready => store.Health.State != StoreState.Opening;

    /// <inheritdoc/>
    public Task<bool> Write(AlarmStep step) => store.Journal(step);
}
