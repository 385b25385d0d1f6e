namespace StrokeWatch.Outputs.Store;

/// <summary>Whether the store takes what it is given.</summary>
public enum StoreState
{
    /// <summary>The file is being opened and checked; rows wait.</summary>
    Opening,

    /// <summary>Rows are committed.</summary>
    Working,

    /// <summary>The disk is full: alarms and events still go into the room set aside, windows wait.</summary>
    Full,

    /// <summary>The database cannot be reached or written; rows wait and are tried again.</summary>
    Trouble,

    /// <summary>The store was closed.</summary>
    Closed,
}
