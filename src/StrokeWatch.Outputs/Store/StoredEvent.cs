namespace StrokeWatch.Outputs.Store;

/// <summary>An event as it was read back.</summary>
/// <param name="Id">Its number; rises with every row and is never used twice.</param>
/// <param name="Feeder">The feeder's name.</param>
/// <param name="Utc">When, in UTC.</param>
/// <param name="Kind">What happened; null for a kind that a later version wrote.</param>
/// <param name="Text">What happened, for people.</param>
public sealed record StoredEvent(long Id, string Feeder, DateTimeOffset Utc, StoreEventKind? Kind, string Text);
