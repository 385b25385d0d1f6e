namespace StrokeWatch.Outputs.Book;

/// <summary>
/// The machine book of one feeder, a SQLite file: tuning sessions and their trials, what guided checks found, what the feeder has run, what was done to it, and what is to be done.
/// </summary>
/// <remarks>
/// Several programs may have it open at once; a writer waits up to five seconds for another. What a method has written when it returns survives a kill at any
/// instant and a power cut. One object serves one thread at a time. Every method may throw <see cref="BookException"/>, whose message is one line for people.
/// </remarks>
public sealed class MachineBook : IDisposable
{
    private readonly BookConnection connection;

    private MachineBook(BookConnection connection, string path)
    {
        this.connection = connection;
        FilePath = path;
        Sessions = new(connection);
        Checks = new(connection);
        Running = new(connection);
        Entries = new(connection);
        Reminders = new(connection);
    }

    /// <summary>Gets the file.</summary>
    public string FilePath { get; }

    /// <summary>Gets the tuning sessions with their trials and answers.</summary>
    public BookSessions Sessions { get; }

    /// <summary>Gets what was found at guided checks.</summary>
    public BookChecks Checks { get; }

    /// <summary>Gets what the feeder has run.</summary>
    public BookRunning Running { get; }

    /// <summary>Gets what was done to the machine.</summary>
    public BookEntries Entries { get; }

    /// <summary>Gets what is to be done by hours or cycles.</summary>
    public BookReminders Reminders { get; }

    /// <summary>Gives the book's place where none is named: <c>NAME.book.sqlite</c> beside the feeder file <c>NAME.toml</c>.</summary>
    public static string Beside(string feederFile) => Path.ChangeExtension(feederFile, ".book.sqlite");

    /// <summary>Opens a book to write and read; begins one where there is none.</summary>
    /// <exception cref="BookException">It cannot be opened, is damaged, no book, or of a later version; the file is left as it is.</exception>
    public static MachineBook Open(string path, TimeProvider clock) => new(BookConnection.OpenWriter(path, clock), path);

    /// <summary>Opens a book to read; it must exist.</summary>
    /// <exception cref="BookException">It is missing, cannot be opened, is damaged, no book, or of a later version.</exception>
    public static MachineBook OpenReader(string path) => new(BookConnection.OpenReader(path), path);

    /// <inheritdoc/>
    public void Dispose() => connection.Dispose();
}
