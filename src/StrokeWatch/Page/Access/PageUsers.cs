using Serilog;

namespace StrokeWatch.Page.Access;

/// <summary>Those who may sign in, as the file says now: it is looked at again where it has changed, so that who is taken out is out within seconds. Any thread may ask.</summary>
internal sealed class PageUsers
{
    private static readonly TimeSpan Between = TimeSpan.FromSeconds(2);

    private readonly string path;
    private readonly TimeProvider time;
    private readonly ILogger log;
    private readonly Lock gate = new();
    private UsersFile now = UsersFile.Empty;
    private (DateTime Written, long Length)? known;
    private long? looked;

    /// <summary>Takes the file; it is read when it is first needed.</summary>
    public PageUsers(string path, TimeProvider time, ILogger log) => (this.path, this.time, this.log) = (path, time, log);

    /// <summary>Gets the users; nobody where the file will not do, which is logged.</summary>
    public UsersFile Now
    {
        get
        {
            lock (gate)
            {
                if (looked is not { } before || time.GetElapsedTime(before) >= Between)
                {
                    looked = time.GetTimestamp();
                    Look();
                }

                return now;
            }
        }
    }

    private void Look()
    {
        var file = new FileInfo(path);
        (DateTime, long)? found = file.Exists ? (file.LastWriteTimeUtc, file.Length) : null;
        if (found is not null && found == known && UsersFile.Closed(path) is null)
        {
            return;
        }

        var read = UsersFile.Read(path, out var troubles);
        if (read is null && (now.Users.Count > 0 || known != found))
        {
            log.Error("Page: nobody can sign in: {Trouble:l}", troubles[0]);
        }

        // Who cannot be looked up is not let in.
        (now, known) = (read ?? UsersFile.Empty, read is null ? known = null : found);
    }
}
