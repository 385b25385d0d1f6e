namespace StrokeWatch.Assessment.Watching;

/// <summary>A finding that was raised or cleared.</summary>
/// <param name="Finding">The finding; where it is cleared, as it stood last.</param>
/// <param name="Raised">True where it was raised, false where it was cleared.</param>
/// <param name="At">The end of the stretch of running that showed it.</param>
public sealed record FindingTransition(WatchFinding Finding, bool Raised, DateTimeOffset At);
