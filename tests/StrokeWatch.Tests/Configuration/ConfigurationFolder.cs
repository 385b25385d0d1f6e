namespace StrokeWatch.Tests.Configuration;

/// <summary>A folder of files for one test, gone afterwards.</summary>
internal sealed class ConfigurationFolder : IDisposable
{
    public string Path { get; } = Directory.CreateTempSubdirectory("strokewatch-configuration-").FullName;

    public string Write(string name, string text)
    {
        var path = System.IO.Path.Combine(Path, name);
        File.WriteAllText(path, text);
        return path;
    }

    public string At(string name) => System.IO.Path.Combine(Path, name);

    public void Dispose() => Directory.Delete(Path, recursive: true);
}
