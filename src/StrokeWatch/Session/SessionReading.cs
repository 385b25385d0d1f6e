using StrokeWatch.Outputs.Book;

namespace StrokeWatch.Session;

/// <summary>What came of a measurement.</summary>
/// <param name="Trial">The trial, its stacks left to the session.</param>
/// <param name="Danger">Whether the stroke exceeded its limit or the armature struck at any moment of it.</param>
internal sealed record SessionReading(BookTrial Trial, bool Danger);
