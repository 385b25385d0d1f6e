namespace StrokeWatch.Commands;

/// <summary>Writes a result to a file that the user named.</summary>
internal static class ResultFile
{
    /// <summary>Writes; false and one line where the file cannot be written.</summary>
    public static bool Write(string option, string path, Action<Stream> write, TextWriter error)
    {
        try
        {
            using var stream = File.Create(path);
            write(stream);
            return true;
        }
        catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            error.WriteLine($"{option} {path}: cannot be written ({trouble.Message.TrimEnd('.').ReplaceLineEndings(" ")}); name a file in a folder that is there");
            return false;
        }
    }
}
