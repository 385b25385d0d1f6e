namespace StrokeWatch.Outputs.Store;

/// <summary>How the store is kept.</summary>
public sealed record StoreOptions
{
    /// <summary>Gets the database file; its folder must exist.</summary>
    public required string Path { get; init; }

    /// <summary>Gets the feeder's name, written into every window.</summary>
    public required string Feeder { get; init; }

    /// <summary>Gets the days that windows are kept, counted by what the program has lived, not by the computer's clock; alarms, events, findings and stretches of running are kept for ever.</summary>
    public int KeepDays { get; init; } = 90;

    /// <summary>Gets how long a window waits at most for its commit; also how long after a failure the next attempt is made. 10 s: commit size decides a card's wear.</summary>
    public TimeSpan CommitInterval { get; init; } = TimeSpan.FromSeconds(10);

    /// <summary>Gets how many waiting windows cause a commit before its time.</summary>
    public int CommitRows { get; init; } = 200;

    /// <summary>Gets how many windows are held in memory while the database cannot take them; further ones are dropped and counted.</summary>
    public int MostWindows { get; init; } = 20_000;

    /// <summary>Gets how many alarms and events are held in memory while the database cannot take them; further ones are dropped and counted.</summary>
    public int MostNotes { get; init; } = 2_000;

    /// <summary>Gets how long another program's lock is waited for, in whole seconds, at least 1.</summary>
    public int LockSeconds { get; init; } = 2;

    /// <summary>Gets the bytes set aside beside the database and freed on a full disk, so that alarms can still be written; 0 for none.</summary>
    public int BallastBytes { get; init; } = 1 << 20;

    /// <summary>Gets how long the check of the file at the start may take before it is given up.</summary>
    public TimeSpan CheckLimit { get; init; } = TimeSpan.FromSeconds(30);

    /// <summary>Gets whether a start after an end without a stop (killed, power cut) notes an event of how long nothing was written; no by default.</summary>
    public bool NoteInterruption { get; init; }

    /// <summary>Gets whether the first window after a start is committed at once, so that a restart is known to have come to measuring; no by default.</summary>
    public bool FirstWindowAtOnce { get; init; }

    /// <summary>Gets whether a clock that cannot be right, or is set, notes an event; no by default.</summary>
    public bool NoteClock { get; init; }
}
