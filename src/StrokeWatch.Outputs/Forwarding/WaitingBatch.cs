namespace StrokeWatch.Outputs.Forwarding;

/// <summary>The oldest rows of a table that wait.</summary>
/// <param name="From">The place they follow: the one asked for, or the start where the store was begun anew.</param>
/// <param name="Anew">Whether the store is another than the one the place was kept for.</param>
/// <param name="Rows">The rows, in order.</param>
/// <param name="Gone">Rows between the place and the last one given that the store no longer holds: they outlived their days unsent.</param>
/// <param name="Held">How many rows the table has had since the place, those given included; may count rows that are gone.</param>
internal sealed record WaitingBatch(RowPlace From, bool Anew, IReadOnlyList<WaitingRow> Rows, long Gone, long Held)
{
    /// <summary>Gives the batch of a store or a table that is not there yet.</summary>
    public static WaitingBatch None(RowPlace place) => new(place, false, [], 0, 0);
}
