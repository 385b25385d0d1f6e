namespace StrokeWatch.Tests.Sensors.Pages;

/// <summary>A page of the hardware notes and the fenced blocks on it.</summary>
internal static class NotesPage
{
    public static string Read(string name)
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "StrokeWatch.sln")))
        {
            folder = folder.Parent;
        }

        return File.ReadAllText(Path.Combine(folder!.FullName, "hardware-notes", name));
    }

    /// <summary>Gives each block's kind and lines, in the order of the page.</summary>
    public static List<(string Kind, string[] Lines)> Blocks(string name)
    {
        var blocks = new List<(string, string[])>();
        var lines = Read(name).Split('\n');
        for (var i = 0; i < lines.Length; i++)
        {
            if (lines[i].StartsWith("```", StringComparison.Ordinal))
            {
                var kind = lines[i][3..];
                var end = Array.IndexOf(lines, "```", i + 1);
                blocks.Add((kind, lines[(i + 1)..end]));
                i = end;
            }
        }

        return blocks;
    }

    public static byte[] Hex(string[] lines) => Convert.FromHexString(string.Concat(lines).Replace(" ", string.Empty, StringComparison.Ordinal));
}
