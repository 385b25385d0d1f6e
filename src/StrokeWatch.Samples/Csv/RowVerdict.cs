namespace StrokeWatch.Samples.Csv;

/// <summary>What the time of a row means for the row.</summary>
internal enum RowVerdict : byte
{
    /// <summary>It follows the row before without a gap.</summary>
    Follows,

    /// <summary>Rows are missing before it.</summary>
    AfterGap,

    /// <summary>The clock was set back before it: a new stretch begins.</summary>
    AfterSetBack,

    /// <summary>Its time lies out of order: it is rejected.</summary>
    OutOfOrder,

    /// <summary>It is one row too many at the time of the row before: it is rejected.</summary>
    Repeated,
}
