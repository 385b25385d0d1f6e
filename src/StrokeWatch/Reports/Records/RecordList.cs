namespace StrokeWatch.Reports.Records;

/// <summary>A numbered list: what is to be done in this order.</summary>
/// <param name="Items">The items.</param>
internal sealed record RecordList(IReadOnlyList<string> Items) : RecordBlock;
