using StrokeWatch.Assessment.Stretches;

namespace StrokeWatch.Outputs.Store;

/// <summary>A stretch of running as it was read back.</summary>
/// <param name="Id">Its number; rises with every row and is never used twice.</param>
/// <param name="Feeder">The feeder's name.</param>
/// <param name="Stretch">The stretch.</param>
public sealed record StoredStretch(long Id, string Feeder, Stretch Stretch);
