namespace StrokeWatch.Benchmarks.Fuzzing;

/// <summary>The repository's own files, from which inputs are made.</summary>
internal static class FuzzFiles
{
    public static string Root { get; } = Find();

    /// <summary>Reads files of a folder whose names end so, each no further than so many bytes.</summary>
    public static IReadOnlyList<byte[]> Of(string folder, string end, int most) =>
        [.. Directory.EnumerateFiles(Path.Combine(Root, folder), "*" + end).Order(StringComparer.Ordinal).Select(path => Head(path, most))];

    private static byte[] Head(string path, int most)
    {
        using var stream = File.OpenRead(path);
        var bytes = new byte[Math.Min(most, stream.Length)];
        stream.ReadExactly(bytes);
        return bytes;
    }

    private static string Find()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "StrokeWatch.sln")))
        {
            folder = folder.Parent ?? throw new InvalidOperationException($"no StrokeWatch.sln above {AppContext.BaseDirectory}");
        }

        return folder.FullName;
    }
}
