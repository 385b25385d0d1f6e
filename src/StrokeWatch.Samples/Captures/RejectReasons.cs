namespace StrokeWatch.Samples.Captures;

/// <summary>The reasons for which a capture's row is rejected: a closed list, each counted.</summary>
public static class RejectReasons
{
    /// <summary>A cell that should be a number is not.</summary>
    public const string NotANumber = "not-a-number";

    /// <summary>A cell that should be a number is empty.</summary>
    public const string EmptyCell = "empty-cell";

    /// <summary>The row ends before the columns that are needed.</summary>
    public const string TooFewColumns = "too-few-columns";

    /// <summary>The row has more columns than the table.</summary>
    public const string TooManyColumns = "too-many-columns";

    /// <summary>A value is NaN or infinite.</summary>
    public const string NanOrInfinite = "nan-or-infinite";

    /// <summary>The row's time lies out of order between its neighbours.</summary>
    public const string TimeBackwards = "time-backwards";

    /// <summary>The row repeats the time of the one before, and the rows after show that it is one too many.</summary>
    public const string TimeRepeated = "time-repeated";

    /// <summary>The capture ends in the middle of a row or before its stated length.</summary>
    public const string Truncated = "truncated";

    /// <summary>The row is text where data should be.</summary>
    public const string ErrorText = "error-text";

    /// <summary>Gets them all.</summary>
    public static IReadOnlyList<string> All { get; } =
    [
        NotANumber, EmptyCell, TooFewColumns, TooManyColumns, NanOrInfinite, TimeBackwards, TimeRepeated, Truncated, ErrorText,
    ];
}
