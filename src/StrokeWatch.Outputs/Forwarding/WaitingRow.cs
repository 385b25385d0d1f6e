namespace StrokeWatch.Outputs.Forwarding;

/// <summary>A row of the store that waits to be forwarded.</summary>
/// <param name="Id">Its number; rises with every row of its table.</param>
/// <param name="UtcMs">Its instant in milliseconds since 1970 UTC.</param>
/// <param name="Values">Its other columns by name, in the table's order; those without a value are left out.</param>
internal sealed record WaitingRow(long Id, long UtcMs, IReadOnlyList<KeyValuePair<string, object>> Values)
{
    /// <summary>Gets where the row stands.</summary>
    public RowPlace Place => new(Id, UtcMs);
}
