namespace StrokeWatch.EndToEnd.Tests.Commands;

/// <summary>A folder of a test's own, gone with it.</summary>
internal sealed class TempFolder : IDisposable
{
    public string Path { get; } = Directory.CreateTempSubdirectory("strokewatch-e2e-").FullName;

    public string At(string name) => System.IO.Path.Combine(Path, name);

    /// <summary>Writes a text file and gives its path.</summary>
    public string Write(string name, string text)
    {
        File.WriteAllText(At(name), text);
        return At(name);
    }

    public void Dispose()
    {
        try
        {
            Directory.Delete(Path, recursive: true);
        }
        catch (IOException)
        {
            // A child that is still ending may hold a file; the system's temporary folder is cleared without us.
        }
    }
}
