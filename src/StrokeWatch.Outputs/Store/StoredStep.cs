using StrokeWatch.Assessment.Alarms;

namespace StrokeWatch.Outputs.Store;

/// <summary>A step of an alarm's life, as it was read back.</summary>
/// <param name="Id">Its number; rises with every row and is never used twice.</param>
/// <param name="Feeder">The feeder's name.</param>
/// <param name="Step">The step.</param>
public sealed record StoredStep(long Id, string Feeder, AlarmStep Step);
