namespace StrokeWatch.Outputs.Captures;

/// <summary>A file that is on the disk, not only with the operating system, when it is closed.</summary>
internal sealed class SyncedFile(string path) : FileStream(path, FileMode.Create, FileAccess.ReadWrite, FileShare.Read, 1 << 16)
{
    /// <inheritdoc/>
    protected override void Dispose(bool disposing)
    {
        try
        {
            if (disposing && CanWrite)
            {
                Flush(flushToDisk: true);
            }
        }
        finally
        {
            base.Dispose(disposing);
        }
    }
}
