using System.Text.RegularExpressions;
using Xunit;

namespace StrokeWatch.Tests.House;

public sealed partial class WordsTests
{
    private static readonly string[] Readable = [".cs", ".md", ".toml", ".csproj", ".props", ".txt", ".service", ".conf", ".json", ".sln", ""];

    /// <summary>Written in two pieces, so that this file holds none of them itself.</summary>
    private static readonly string[] Unfinished = ["TO" + "DO", "FIX" + "ME", "XX" + "X", "HA" + "CK:", "NotImplemented" + "Exception", "NotSupported" + "Exception(\"not yet"];

    private static readonly string[] Clocks =
    [
        "Date" + "Time.Now", "Date" + "Time.UtcNow", "DateTimeOffset" + ".Now", "DateTimeOffset" + ".UtcNow", "Thread" + ".Sleep", "Environment" + ".TickCount",
        "Random" + ".Shared", "new " + "Random()",
    ];

    private static readonly string[] Places = ["/work" + "/", "/root" + "/", "/tmp" + "/sw", "/home" + "/"];

    [Fact]
    public void Nothing_is_left_unfinished() => None(Texts().Where(file => Unfinished.Any(SourceTree.Text(file).Contains)));

    [Fact]
    public void No_clock_and_no_chance_is_read_in_the_source_but_where_the_program_is_composed() => None(SourceTree.Code("src")
        .Where(file => Clocks.Any(SourceTree.Text(file).Contains)));

    [Fact]
    public void The_real_clock_is_named_in_one_place() => Assert.Equal(
        ["src/StrokeWatch/Program.cs"], SourceTree.Code("src").Where(file => SourceTree.Text(file).Contains("TimeProvider" + ".System", StringComparison.Ordinal)));

    [Fact]
    public void No_file_names_a_place_of_one_machine() => None(Texts().Where(file => Places.Any(SourceTree.Text(file).Contains)));

    [Fact]
    public void Links_in_pages_lead_somewhere()
    {
        var broken = new List<string>();
        foreach (var page in SourceTree.Files.Where(file => file.EndsWith(".md", StringComparison.Ordinal)))
        {
            foreach (Match link in Link().Matches(SourceTree.Text(page)))
            {
                var target = Path.Combine(SourceTree.Root, Path.GetDirectoryName(page)!, link.Groups[1].Value);
                if (!Path.Exists(target))
                {
                    broken.Add($"{page}: {link.Groups[1].Value}");
                }
            }
        }

        None(broken);
    }

    [Fact]
    public void The_top_level_holds_what_the_house_has_and_nothing_else()
    {
        string[] house = ["README.md", "DEVELOPERS.md", "StrokeWatch.sln", "src", "tests", "hardware-notes", "systemd", "sim-data"];
        var found = SourceTree.Files.Select(file => file.Split('/')[0]).Distinct().Where(name => !name.StartsWith('.')).ToList();
        Assert.Empty(found.Except(house));
        Assert.Empty(house.Except(found));
    }

    private static IEnumerable<string> Texts() => SourceTree.Files.Where(file => Readable.Contains(Path.GetExtension(file)));

    private static void None(IEnumerable<string> offenders)
    {
        var all = offenders.ToList();
        Assert.True(all.Count == 0, string.Join("\n", all));
    }

    [GeneratedRegex(@"\]\((?!https?:|#|mailto:)([^)#\s]+)(?:#[^)]*)?\)")]
    private static partial Regex Link();
}
