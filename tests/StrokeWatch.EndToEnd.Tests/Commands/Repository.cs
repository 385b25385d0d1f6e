using System.Text.Json.Nodes;
using Xunit;

namespace StrokeWatch.EndToEnd.Tests.Commands;

/// <summary>Where the repository's own files lie, and the folder of outside material beside it.</summary>
internal static class Repository
{
    public static string Root { get; } = Find();

    public static string SimData { get; } = Path.Combine(Root, "sim-data");

    /// <summary>Gives a capture of sim-data.</summary>
    public static string Capture(string name) => new[] { ".wav", ".csv" }.Select(end => Path.Combine(SimData, name + end)).First(File.Exists);

    /// <summary>Gives the feeder file of a capture of sim-data.</summary>
    public static string Feeder(string name) => Path.Combine(SimData, $"{name}.feeder.toml");

    /// <summary>Gives the truth of a capture of sim-data.</summary>
    public static JsonNode Truth(string name) => JsonNode.Parse(File.ReadAllBytes(Path.Combine(SimData, $"{name}.truth.json")))!;

    /// <summary>Gives a file or folder beside the repository, which is not part of it; the test is not run where it is absent.</summary>
    public static string Shared(string name)
    {
        var path = Path.GetFullPath(Path.Combine(Root, "..", "shared", name));
        Skip.IfNot(Path.Exists(path), $"shared/{name} is not beside the repository");
        return path;
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
