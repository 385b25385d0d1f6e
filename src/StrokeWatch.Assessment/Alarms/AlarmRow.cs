namespace StrokeWatch.Assessment.Alarms;

/// <summary>One alarm of the table.</summary>
/// <param name="Kind">The alarm.</param>
/// <param name="Priority">How soon it needs somebody.</param>
/// <param name="OnSeconds">How long its condition must hold, 0 or more.</param>
/// <param name="OffSeconds">How long its condition must be gone, 0 or more.</param>
/// <param name="Latches">Whether it stays after its condition, until a person resets it.</param>
/// <param name="OnlyRunning">Whether it means nothing while the feeder stands, starts or runs out.</param>
/// <param name="LongestShelf">For how long it may be put aside at once.</param>
public sealed record AlarmRow(AlarmKind Kind, AlarmPriority Priority, double OnSeconds, double OffSeconds, bool Latches, bool OnlyRunning, TimeSpan LongestShelf);
