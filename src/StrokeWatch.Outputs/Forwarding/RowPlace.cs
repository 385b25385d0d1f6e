namespace StrokeWatch.Outputs.Forwarding;

/// <summary>How far a table of the store has been forwarded.</summary>
/// <param name="Id">The number of the last row done with; 0 before the first.</param>
/// <param name="UtcMs">That row's instant in milliseconds since 1970 UTC, by which a store begun anew is told from the one known; 0 before the first.</param>
internal readonly record struct RowPlace(long Id, long UtcMs)
{
    /// <summary>Before the first row.</summary>
    public static readonly RowPlace Start = new(0, 0);
}
