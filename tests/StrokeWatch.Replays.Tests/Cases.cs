namespace StrokeWatch.Replays.Tests;

/// <summary>The cases of the folder sim-data, found by looking: whatever any file there is named after is a case.</summary>
internal static class Cases
{
    private static readonly string[] Ends = [".golden.json", ".truth.json", ".feeder.toml", ".toml", ".wav", ".csv"];

    public static string Folder { get; } = Path.Combine(Root(), "sim-data");

    public static IReadOnlyList<string> Names { get; } = [.. Directory.GetFiles(Folder)
        .Select(file => Path.GetFileName(file))
        .Where(file => file != "README.md")
        .Select(Stem)
        .Distinct()
        .Order(StringComparer.Ordinal)];

    public static string At(string name, string end) => Path.Combine(Folder, name + end);

    /// <summary>Gives the name of a case's capture, without its folder.</summary>
    public static string Capture(string name) => File.Exists(At(name, ".wav")) ? $"{name}.wav" : $"{name}.csv";

    private static string Stem(string file) =>
        Ends.FirstOrDefault(end => file.EndsWith(end, StringComparison.Ordinal)) is { } end ? file[..^end.Length] : file;

    private static string Root()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "StrokeWatch.sln")))
        {
            folder = folder.Parent ?? throw new InvalidOperationException($"no StrokeWatch.sln above {AppContext.BaseDirectory}");
        }

        return folder.FullName;
    }
}
