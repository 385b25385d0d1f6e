namespace StrokeWatch.Reports.Sheets;

/// <summary>A table of a sheet.</summary>
/// <param name="Key">Its key in JSON.</param>
/// <param name="Columns">Names for people, keys for JSON, decimals; the first, that of the words, has no name where rows have no words.</param>
/// <param name="Rows">A first cell in words, then numbers, null where there is none.</param>
internal sealed record SheetTable(string Key, IReadOnlyList<(string Name, string Key, int Digits)> Columns, IReadOnlyList<(string Words, IReadOnlyList<double?> Numbers)> Rows)
{
    /// <summary>Gets its heading on the page.</summary>
    public string Title { get; init; } = "In numbers";

    /// <summary>Gets whether rows begin with words.</summary>
    public bool HasWords => Columns[0].Name.Length > 0;
}
