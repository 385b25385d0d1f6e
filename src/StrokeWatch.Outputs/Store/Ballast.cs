namespace StrokeWatch.Outputs.Store;

/// <summary>A file beside the database that holds room on the disk, to be given up when the disk is full: a full SQLite database can free nothing by itself.</summary>
internal sealed class Ballast(string databasePath, int bytes)
{
    private readonly string path = databasePath + ".ballast";

    /// <summary>Gives the room up; true where there was any.</summary>
    public bool TryRelease()
    {
        try
        {
            var held = File.Exists(path);
            File.Delete(path);
            return held;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return false;
        }
    }

    /// <summary>Takes the room again where it is not held; failure leaves no ballast and no trouble.</summary>
    public void Hold()
    {
        try
        {
            if (bytes == 0 || new FileInfo(path) is { Exists: true } file && file.Length >= bytes)
            {
                return;
            }

            // Real bytes: a length alone would be a hole that holds no room.
            using var stream = new FileStream(path, FileMode.Create, FileAccess.Write);
            stream.Write(new byte[bytes]);
            stream.Flush(flushToDisk: true);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            TryRelease();
        }
    }

    /// <summary>Says whether the disk has room for the ballast and as much again.</summary>
    public bool HasRoom()
    {
        try
        {
            var folder = Path.GetDirectoryName(Path.GetFullPath(path))!;
            return new DriveInfo(folder).AvailableFreeSpace >= 2L * bytes + (256 << 10);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException)
        {
            return true;
        }
    }
}
