namespace StrokeWatch.Tests.Samples.Captures;

/// <summary>The folder of recordings beside the repository, which is not part of it.</summary>
internal static class SharedFolder
{
    public static string? Find(string name)
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, "StrokeWatch.sln")))
            {
                var path = Path.Combine(folder.FullName, "..", "shared", name);
                return Path.Exists(path) ? path : null;
            }
        }

        return null;
    }
}
