namespace StrokeWatch.Reports.Sheets;

/// <summary>What a sheet draws.</summary>
internal sealed record SheetPlot
{
    /// <summary>Gets what it shows, for those who cannot see it, and as its caption.</summary>
    public required string Says { get; init; }

    /// <summary>Gets the words along the bottom, with the unit.</summary>
    public required string XWords { get; init; }

    /// <summary>Gets the unit on the left.</summary>
    public required string YUnit { get; init; }

    /// <summary>Gets the keys of both axes in JSON.</summary>
    public required (string X, string Y) Keys { get; init; }

    /// <summary>Gets what the bottom spans.</summary>
    public required (double From, double To) X { get; init; }

    /// <summary>Gets what the left side spans.</summary>
    public required (double From, double To) Y { get; init; }

    /// <summary>Gets whether heights are strokes in mm, so that inches stand on the right.</summary>
    public bool Inches { get; init; }

    /// <summary>Gets the hatched band between two heights; null for none.</summary>
    public (double Low, double High)? Band { get; init; }

    /// <summary>Gets the range that holds 95 of 100 machines, lower and upper edge; empty for none.</summary>
    public IReadOnlyList<(double X, double Low, double High)> Ribbon { get; init; } = [];

    /// <summary>Gets the lines.</summary>
    public IReadOnlyList<SheetLine> Lines { get; init; } = [];

    /// <summary>Gets the marks.</summary>
    public IReadOnlyList<SheetMark> Marks { get; init; } = [];
}
