using StrokeWatch.Assessment.Alarms;

namespace StrokeWatch.Reports.Records;

/// <summary>An alarm of the period.</summary>
/// <param name="Kind">The alarm.</param>
/// <param name="Raised">When it was raised; null where that was before the period.</param>
/// <param name="Ended">When it was cleared, or the program started anew; null where it stands.</param>
/// <param name="Restarted">Whether it ended only because the program started anew.</param>
/// <param name="Words">What an operator was told.</param>
internal sealed record RecordAlarm(AlarmKind Kind, DateTimeOffset? Raised, DateTimeOffset? Ended, bool Restarted, string Words);
