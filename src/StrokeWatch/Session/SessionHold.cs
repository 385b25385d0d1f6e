namespace StrokeWatch.Session;

/// <summary>Says whose turn a book's tuning sessions are: the page holds them alone, terminals share them (a session's own turns keep those apart). A program that dies lets go.</summary>
internal sealed class SessionHold : IDisposable
{
    private readonly FileStream file;

    private SessionHold(FileStream file) => this.file = file;

    /// <summary>What a terminal says where the page holds the session.</summary>
    public static string AtPage(string book) => $"{book}: a tuning session is gone on with on the daemon's page; leave it there first";

    /// <summary>Takes hold for the page; null where a terminal has it.</summary>
    public static SessionHold? Page(string book) => Take(book, FileShare.None);

    /// <summary>Takes hold for a terminal; null where the page has it.</summary>
    public static SessionHold? Terminal(string book) => Take(book, FileShare.ReadWrite);

    /// <inheritdoc/>
    public void Dispose() => file.Dispose();

    private static SessionHold? Take(string book, FileShare share)
    {
        var options = new FileStreamOptions { Mode = FileMode.OpenOrCreate, Access = FileAccess.ReadWrite, Share = share };
        if (!OperatingSystem.IsWindows())
        {
            options.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
        }

        try
        {
            return new(new(book + ".held", options));
        }
        catch (IOException trouble) when (trouble is not (DirectoryNotFoundException or FileNotFoundException or PathTooLongException))
        {
            return null;
        }
    }
}
