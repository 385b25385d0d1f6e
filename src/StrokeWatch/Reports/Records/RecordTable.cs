namespace StrokeWatch.Reports.Records;

/// <summary>A table; its head is repeated on every page that it reaches into.</summary>
/// <param name="Columns">The columns' names.</param>
/// <param name="Rows">The rows, a text a column.</param>
/// <param name="Sums">How many rows at the end sum up those above.</param>
internal sealed record RecordTable(IReadOnlyList<string> Columns, IReadOnlyList<IReadOnlyList<string>> Rows, int Sums = 0) : RecordBlock;
