namespace StrokeWatch.Samples.Csv;

/// <summary>What became of a row.</summary>
internal enum RowOutcome
{
    /// <summary>It was read.</summary>
    Read,

    /// <summary>A cell is not a number.</summary>
    NotANumber,

    /// <summary>A cell is empty.</summary>
    EmptyCell,

    /// <summary>It ends too early.</summary>
    TooFewColumns,

    /// <summary>It has more cells than the table.</summary>
    TooManyColumns,

    /// <summary>A value is NaN or infinite.</summary>
    NanOrInfinite,

    /// <summary>It is words.</summary>
    ErrorText,

    /// <summary>It was cut short by the end of the file.</summary>
    Truncated,
}
