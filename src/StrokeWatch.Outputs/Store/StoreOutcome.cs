using Microsoft.Data.Sqlite;

namespace StrokeWatch.Outputs.Store;

/// <summary>What came of an attempt to write.</summary>
/// <param name="State">How the store stands after it.</param>
/// <param name="Trouble">What is wrong and what to do; null where all went well.</param>
/// <param name="TryAgain">Whether room was made on a full disk, so that alarms and events can be tried again at once.</param>
internal readonly record struct StoreOutcome(StoreState State, string? Trouble, bool TryAgain = false)
{
    private const int ReadOnlyFileSystem = 30;

    /// <summary>All went well.</summary>
    public static readonly StoreOutcome Well = new(StoreState.Working, null);

    /// <summary>Words a failure; whatever it is, it must not end the program: the feeder is measured with or without a store.</summary>
    public static StoreOutcome From(Exception e, string path) => e switch
    {
        SqliteException { SqliteErrorCode: Database.Full } => new(
            StoreState.Full, "the disk is full: free some space; alarms and events still go into the room set aside, windows wait in memory"),
        SqliteException { SqliteErrorCode: 5 or 6 } => new(StoreState.Trouble, $"{path} is locked by another program: close that program"),
        SqliteException { SqliteErrorCode: 8 or 10 or 14 } or IOException when OnReadOnlyDisk(path) => new(
            StoreState.Trouble, $"{path} lies on a file system that can only be read: a worn card or an error on the disk turns it so; look at the system's log, then mount it anew or change the card"),
        SqliteException { SqliteErrorCode: 8 } => new(StoreState.Trouble, $"{path} may not be written: check owner and mode of the file and its folder"),
        SqliteException { SqliteErrorCode: 14 } => new(StoreState.Trouble, $"{path} cannot be opened: check the folder, its owner and mode"),
        DirectoryNotFoundException => new(StoreState.Trouble, $"the folder of {path} is missing: create it"),
        UnauthorizedAccessException => new(StoreState.Trouble, $"{path} may not be written: check owner and mode of the file and its folder"),
        _ => new(StoreState.Trouble, $"{path}: {e.Message.ReplaceLineEndings(" ")}"),
    };

    /// <summary>Says whether not even a new file can be made because of the file system. The database itself is left alone: to close it would drop the locks that SQLite has on it.</summary>
    private static bool OnReadOnlyDisk(string path)
    {
        var tried = path + ".try";
        try
        {
            using var file = new FileStream(tried, new FileStreamOptions { Mode = FileMode.Create, Access = FileAccess.Write, Options = FileOptions.DeleteOnClose });
            return false;
        }
        catch (IOException e)
        {
            // EROFS of Linux, which the runtime passes on as it is.
            return e.HResult == ReadOnlyFileSystem;
        }
        catch (UnauthorizedAccessException)
        {
            return false;
        }
    }
}
