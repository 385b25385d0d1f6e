using StrokeWatch.Samples.Sources;

namespace StrokeWatch.Samples.Captures;

/// <summary>The bytes of a capture, which can be read from the start any number of times.</summary>
internal sealed class CaptureBytes : IDisposable
{
    private readonly Func<Stream> open;
    private readonly IDisposable? held;

    /// <summary>Makes the bytes from whatever opens them.</summary>
    public CaptureBytes(string name, Func<Stream> open, IDisposable? held = null)
    {
        Name = name;
        this.open = open;
        this.held = held;
    }

    /// <summary>Gets the name that error lines begin with.</summary>
    public string Name { get; }

    /// <summary>Gets whether the name can be opened again later; false for a pipe, whose bytes are only held here.</summary>
    public bool Repeatable => held is null;

    /// <summary>Opens a file; what cannot be read twice (a pipe) is first copied into a temporary file.</summary>
    public static CaptureBytes OfFile(string path)
    {
        if (string.IsNullOrWhiteSpace(path))
        {
            throw new CaptureException("capture: no file is named; give the path of a CSV or WAV file");
        }

        if (Directory.Exists(path))
        {
            throw new CaptureException($"{path}: is a directory, not a capture; name a file in it");
        }

        try
        {
            var first = OpenShared(path);
            if (!first.CanSeek)
            {
                using (first)
                {
                    return Spool(path, first);
                }
            }

            first.Dispose();
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException or NotSupportedException or ArgumentException)
        {
            throw Fault(path, fault);
        }

        return new CaptureBytes(path, () => OpenShared(path));
    }

    /// <summary>Opens a fresh stream at the first byte.</summary>
    public Stream Open()
    {
        try
        {
            return open();
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            throw Fault(Name, fault);
        }
    }

    /// <summary>Makes the exception for a capture with its name before the line.</summary>
    public CaptureException Error(string line) => new($"{Name}: {line}");

    /// <summary>Makes the exception for a fault of the file system.</summary>
    public CaptureException Error(Exception fault) => Fault(Name, fault);

    /// <inheritdoc/>
    public void Dispose() => held?.Dispose();

    private static CaptureException Fault(string name, Exception fault) => fault switch
    {
        FileNotFoundException or DirectoryNotFoundException => new($"{name}: there is no such file; check the path", fault),
        UnauthorizedAccessException => new($"{name}: may not be read; give this user permission to read it", fault),
        _ => new($"{name}: cannot be read: {fault.Message.ReplaceLineEndings(" ")}; check the path and the disk", fault),
    };

    private static FileStream OpenShared(string path) =>
        new(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete, bufferSize: 1, FileOptions.SequentialScan);

    private static CaptureBytes Spool(string name, Stream pipe)
    {
        var path = Path.Combine(Path.GetTempPath(), $"strokewatch-{Guid.NewGuid():N}.capture");
        var spool = new FileStream(
            path, FileMode.CreateNew, FileAccess.ReadWrite, FileShare.ReadWrite | FileShare.Delete, 1 << 16, FileOptions.DeleteOnClose);
        pipe.CopyTo(spool);
        spool.Flush();
        return new CaptureBytes(name, () => OpenShared(path), spool);
    }
}
