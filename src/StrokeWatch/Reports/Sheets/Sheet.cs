namespace StrokeWatch.Reports.Sheets;

/// <summary>One sheet of a feeder's physics: figures, a table, a plot and what they are worth.</summary>
internal sealed record Sheet
{
    /// <summary>Gets its name, as the command has it.</summary>
    public required string Name { get; init; }

    /// <summary>Gets its title.</summary>
    public required string Title { get; init; }

    /// <summary>Gets the feeder's name.</summary>
    public required string Feeder { get; init; }

    /// <summary>Gets what the figures rest on: trials, or the feeder file alone.</summary>
    public required string From { get; init; }

    /// <summary>Gets the figures.</summary>
    public required IReadOnlyList<SheetFact> Facts { get; init; }

    /// <summary>Gets the tables.</summary>
    public IReadOnlyList<SheetTable> Tables { get; init; } = [];

    /// <summary>Gets the plot.</summary>
    public required SheetPlot Plot { get; init; }

    /// <summary>Gets what it says and how far it holds, a sentence each.</summary>
    public required IReadOnlyList<string> Notes { get; init; }
}
