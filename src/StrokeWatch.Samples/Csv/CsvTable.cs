namespace StrokeWatch.Samples.Csv;

/// <summary>A table found in a text capture.</summary>
internal sealed record CsvTable
{
    /// <summary>Gets the separator of its cells.</summary>
    public required byte Separator { get; init; }

    /// <summary>Gets the cells of its rows.</summary>
    public required int Columns { get; init; }

    /// <summary>Gets whether its rows may hold text beside numbers.</summary>
    public required bool HasText { get; init; }

    /// <summary>Gets the number of its first row's line, from 1.</summary>
    public required long FirstLine { get; init; }

    /// <summary>Gets the lines before it, cut into cells, the nearest 64 of them.</summary>
    public required IReadOnlyList<HeadLine> Before { get; init; }

    /// <summary>Gets its first rows.</summary>
    public required TableSample Sample { get; init; }

    /// <summary>Gets what the lines before it state.</summary>
    public required PreambleHints Hints { get; init; }
}
