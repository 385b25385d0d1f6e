namespace StrokeWatch.Outputs.Store;

/// <summary>How the store is at one instant.</summary>
/// <param name="State">Whether it takes what it is given.</param>
/// <param name="Trouble">What is wrong and what to do, in a sentence; null where nothing is.</param>
/// <param name="Waiting">Rows that are not committed yet.</param>
/// <param name="Windows">Windows committed since the start.</param>
/// <param name="Notes">Alarms and events committed since the start.</param>
/// <param name="DroppedWindows">Windows lost because the memory set for them was full.</param>
/// <param name="DroppedNotes">Alarms and events lost because the memory set for them was full.</param>
/// <param name="LastCommit">When the last commit succeeded, in UTC; null before the first.</param>
public sealed record StoreHealth(
    StoreState State, string? Trouble, int Waiting, long Windows, long Notes, long DroppedWindows, long DroppedNotes, DateTimeOffset? LastCommit);
