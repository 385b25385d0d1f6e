namespace StrokeWatch.Outputs.Book;

/// <summary>Creates files that not everybody may read.</summary>
internal static class PrivateFile
{
    /// <summary>Creates an empty file that only its owner reads and writes; SQLite's journal takes over the file's mode. A file that is there stays as it is.</summary>
    /// <param name="path">The file.</param>
    public static void Create(string path)
    {
        if (File.Exists(path))
        {
            return;
        }

        var options = new FileStreamOptions { Mode = FileMode.OpenOrCreate, Access = FileAccess.Write, Share = FileShare.ReadWrite };
        if (!OperatingSystem.IsWindows())
        {
            options.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
        }

        using var created = new FileStream(path, options);
    }
}
