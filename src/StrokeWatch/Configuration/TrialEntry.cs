using StrokeWatch.Machine.Tuning;

namespace StrokeWatch.Configuration;

/// <summary>One [[trial]] of a trials file.</summary>
/// <param name="Line">Its line.</param>
/// <param name="Trial">What it says itself.</param>
/// <param name="Capture">The capture that holds its stroke, as a path that can be opened; null where the stroke is given.</param>
internal sealed record TrialEntry(int Line, TuningTrial Trial, string? Capture);
