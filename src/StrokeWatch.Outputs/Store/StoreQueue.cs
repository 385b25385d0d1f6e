namespace StrokeWatch.Outputs.Store;

/// <summary>The rows that wait for the database, bounded; the caller holds the lock.</summary>
internal sealed class StoreQueue(int mostWindows, int mostNotes)
{
    private readonly List<StoreRow> rows = [];
    private int windows;

    /// <summary>Gets how many rows wait.</summary>
    public int Count => rows.Count;

    /// <summary>Gets how many windows wait.</summary>
    public int Windows => windows;

    /// <summary>Gets whether an alarm or an event waits, which is written at once.</summary>
    public bool HasNotes => rows.Count > windows;

    /// <summary>Gets how many windows were dropped because as many as allowed were waiting.</summary>
    public long DroppedWindows { get; private set; }

    /// <summary>Gets how many alarms and events were dropped because as many as allowed were waiting.</summary>
    public long DroppedNotes { get; private set; }

    /// <summary>Takes a row, or drops it, counts it and breaks its promise.</summary>
    public void Add(StoreRow row)
    {
        var isWindow = row is WindowRow;
        if (isWindow ? windows >= mostWindows : rows.Count - windows >= mostNotes)
        {
            DroppedWindows += isWindow ? 1 : 0;
            DroppedNotes += isWindow ? 0 : 1;
            row.Settle(committed: false);
            return;
        }

        rows.Add(row);
        windows += isWindow ? 1 : 0;
    }

    /// <summary>Gives the rows that wait, in order; of them all, or alarms and events only.</summary>
    public IReadOnlyList<StoreRow> Peek(bool notesOnly) => [.. rows.Where(r => !notesOnly || r is not WindowRow)];

    /// <summary>Takes out rows that are committed and keeps their promises, or breaks the promises of rows given up.</summary>
    public void Remove(IReadOnlyList<StoreRow> done, bool committed)
    {
        var gone = done.ToHashSet();
        rows.RemoveAll(gone.Contains);
        windows -= done.Count(r => r is WindowRow);
        foreach (var row in done)
        {
            row.Settle(committed);
        }
    }
}
