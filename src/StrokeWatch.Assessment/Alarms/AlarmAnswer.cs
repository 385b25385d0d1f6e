namespace StrokeWatch.Assessment.Alarms;

/// <summary>What came of something that happened to an alarm.</summary>
/// <param name="Step">The step; null where nothing changed.</param>
/// <param name="Refusal">Why a person's request was refused, in a sentence; null where it was not.</param>
public readonly record struct AlarmAnswer(AlarmStep? Step, string? Refusal);
