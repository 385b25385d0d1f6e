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

    /// <summary>Says whether a book lies in its place beside a feeder file: there it is that feeder's, whatever the feeder is called by now.</summary>
    public static bool IsBeside(string path, string feederFile) => Path.GetFullPath(path) == Path.GetFullPath(Beside(feederFile));

    /// <summary>Opens a book to write and read; begins one where there is none.</summary>
    /// <exception cref="BookException">It cannot be opened, is damaged, no book, or of a later version; the file is left as it is.</exception>
    public static MachineBook Open(string path, TimeProvider clock) => new(BookConnection.OpenWriter(path, clock), path);

    /// <summary>Opens a book to read; it must exist.</summary>
    /// <exception cref="BookException">It is missing, cannot be opened, is damaged, no book, or of a later version.</exception>
    public static MachineBook OpenReader(string path) => new(BookConnection.OpenReader(path), path);

    /// <summary>Gets the name of the feeder whose book it is; null where nothing says it yet.</summary>
    public string? Feeder => connection.Read(Owner);

    /// <summary>Makes sure, before anything is written, that the book is a feeder's own; a book that is nobody's becomes its.</summary>
    /// <param name="feeder">The feeder's name.</param>
    /// <param name="renames">Whether a feeder of another name is this one, renamed: the book lies beside its feeder file.</param>
    /// <exception cref="BookException">It is another feeder's.</exception>
    public void Claim(string feeder, bool renames)
    {
        if (!renames)
        {
            Require(feeder);
        }

        if (Feeder != feeder)
        {
            connection.Write(book => book.Run("INSERT INTO meta VALUES ('feeder', $feeder) ON CONFLICT (key) DO UPDATE SET value = $feeder", ("feeder", feeder)));
        }
    }

    /// <summary>Makes sure that the book is no other feeder's.</summary>
    /// <exception cref="BookException">It is another feeder's.</exception>
    public void Require(string feeder)
    {
        if (Feeder is { } owner && owner != feeder)
        {
            throw new BookException($"{FilePath}: is the book of the feeder \"{owner}\", not of \"{feeder}\", and is left as it is: name this feeder's own with --book, or leave --book out");
        }
    }

    /// <inheritdoc/>
    public void Dispose() => connection.Dispose();

    /// <summary>Finds the owner; books from before it was kept tell it by their last session.</summary>
    private static string? Owner(BookStatements book) =>
        book.Rows("SELECT value FROM meta WHERE key = 'feeder' UNION ALL SELECT * FROM (SELECT feeder FROM tuning_session ORDER BY id DESC LIMIT 1)", row => row.Word("value")).FirstOrDefault();
}
