using StrokeWatch.Assessment.Watching;

namespace StrokeWatch.Outputs.Store;

/// <summary>A finding raised or cleared, as it was read back.</summary>
/// <param name="Id">Its number; rises with every row and is never used twice.</param>
/// <param name="Feeder">The feeder's name.</param>
/// <param name="Transition">What was raised or cleared.</param>
public sealed record StoredFinding(long Id, string Feeder, FindingTransition Transition);
