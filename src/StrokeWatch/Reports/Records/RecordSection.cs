namespace StrokeWatch.Reports.Records;

/// <summary>A section of a record.</summary>
/// <param name="Heading">Its heading.</param>
/// <param name="Blocks">What stands in it.</param>
internal sealed record RecordSection(string Heading, IReadOnlyList<RecordBlock> Blocks);
