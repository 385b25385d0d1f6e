namespace StrokeWatch.Reports.Records;

/// <summary>Lines to be filled in by hand; what is known already stands on them.</summary>
/// <param name="Lines">What each line is for, and what stands on it; empty for nothing.</param>
internal sealed record RecordSignature(IReadOnlyList<(string Name, string Value)> Lines) : RecordBlock;
