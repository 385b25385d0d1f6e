namespace StrokeWatch.Outputs.Book;

/// <summary>An entry of the machine book: what somebody did to the machine, and when.</summary>
public sealed record BookEntry
{
    /// <summary>Gets its number; 0 before it is written.</summary>
    public long Id { get; init; }

    /// <summary>Gets when it was done.</summary>
    public required DateTimeOffset Utc { get; init; }

    /// <summary>Gets what it is about.</summary>
    public required BookEntryKind Kind { get; init; }

    /// <summary>Gets who did it; null where nobody said.</summary>
    public string? Who { get; init; }

    /// <summary>Gets the tuning session it was done in; null outside of one.</summary>
    public long? Session { get; init; }

    /// <summary>Gets the rear stack of a leaf set, as <c>4x4.0 1x3.0</c>.</summary>
    public string? Rear { get; init; }

    /// <summary>Gets the front stack of a leaf set.</summary>
    public string? Front { get; init; }

    /// <summary>Gets the air gap at rest in metres.</summary>
    public double? GapMetres { get; init; }

    /// <summary>Gets the bolts' torque in N·m.</summary>
    public double? TorqueNewtonMetres { get; init; }

    /// <summary>Gets the entry's words.</summary>
    public string? Text { get; init; }

    /// <summary>Gets the seconds of running at that moment; null where nothing was counted yet. Filled in by the book.</summary>
    public double? AtSeconds { get; init; }

    /// <summary>Gets the cycles at that moment; null where nothing was counted yet. Filled in by the book.</summary>
    public double? AtCycles { get; init; }
}
