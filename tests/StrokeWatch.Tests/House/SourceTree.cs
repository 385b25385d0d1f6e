namespace StrokeWatch.Tests.House;

/// <summary>The repository's own files, for tests of its habits.</summary>
internal static class SourceTree
{
    private static readonly string[] Passed = ["bin", "obj", ".git", "TestResults", ".vs", ".idea", "strokewatch-demo"];

    public static string Root { get; } = Find();

    /// <summary>Gives every file that may be committed, relative to the root, with forward slashes.</summary>
    public static IReadOnlyList<string> Files { get; } = [.. Walk(new DirectoryInfo(Root))
        .Select(file => Path.GetRelativePath(Root, file).Replace('\\', '/')).Order(StringComparer.Ordinal)];

    /// <summary>Gives the C# files of a folder.</summary>
    public static IReadOnlyList<string> Code(string under) =>
        [.. Files.Where(file => file.StartsWith(under + "/", StringComparison.Ordinal) && file.EndsWith(".cs", StringComparison.Ordinal))];

    public static string Text(string file) => File.ReadAllText(Path.Combine(Root, file));

    public static string[] Lines(string file) => File.ReadAllLines(Path.Combine(Root, file));

    private static IEnumerable<string> Walk(DirectoryInfo folder) => folder.EnumerateFiles().Select(file => file.FullName)
        .Concat(folder.EnumerateDirectories().Where(inner => !Passed.Contains(inner.Name)).SelectMany(Walk));

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
