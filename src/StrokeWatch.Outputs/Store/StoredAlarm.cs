using StrokeWatch.Assessment.Alarms;

namespace StrokeWatch.Outputs.Store;

/// <summary>An alarm raised or cleared, as it was read back.</summary>
/// <param name="Id">Its number; rises with every row and is never used twice.</param>
/// <param name="Feeder">The feeder's name.</param>
/// <param name="Utc">When, in UTC.</param>
/// <param name="Transition">What was raised or cleared.</param>
public sealed record StoredAlarm(long Id, string Feeder, DateTimeOffset Utc, AlarmTransition Transition);
