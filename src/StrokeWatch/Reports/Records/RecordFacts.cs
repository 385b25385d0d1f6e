namespace StrokeWatch.Reports.Records;

/// <summary>Facts with their names.</summary>
/// <param name="Rows">Name and value.</param>
internal sealed record RecordFacts(IReadOnlyList<(string Name, string Value)> Rows) : RecordBlock;
