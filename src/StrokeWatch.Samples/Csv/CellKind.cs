namespace StrokeWatch.Samples.Csv;

/// <summary>What a cell holds.</summary>
internal enum CellKind
{
    /// <summary>Nothing.</summary>
    Empty,

    /// <summary>A number, or a word that programs write for one that is none.</summary>
    Number,

    /// <summary>A time of the clock.</summary>
    Timestamp,

    /// <summary>Anything else.</summary>
    Text,
}
