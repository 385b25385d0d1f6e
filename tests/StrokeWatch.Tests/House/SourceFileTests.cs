using System.Text.RegularExpressions;
using Xunit;

namespace StrokeWatch.Tests.House;

public sealed partial class SourceFileTests
{
    private const int MostLines = 300;

    [Fact]
    public void There_is_source_to_look_at() => Assert.True(SourceTree.Code("src").Count > 150);

    [Fact]
    public void No_source_file_is_longer_than_three_hundred_lines() =>
        None(SourceTree.Code("src").Where(file => SourceTree.Lines(file).Length > MostLines));

    [Fact]
    public void Every_file_is_named_after_its_first_type_and_declares_at_most_one_public_one() => None(SourceTree.Code("src")
        .Where(file => Path.GetFileName(file) != "Program.cs")
        .Where(file => Types(file).FirstOrDefault().Name != Path.GetFileNameWithoutExtension(file) || Types(file).Count(type => type.Public) > 1));

    [Fact]
    public void Every_type_of_the_top_level_has_a_summary()
    {
        var bare = new List<string>();
        foreach (var file in SourceTree.Code("src"))
        {
            var lines = SourceTree.Lines(file);
            for (var i = 1; i < lines.Length; i++)
            {
                if (TopLevelType().IsMatch(lines[i]) && !lines[..i].Reverse().TakeWhile(line => line.StartsWith("///", StringComparison.Ordinal) || line.StartsWith('['))
                    .Any(line => line.Contains("<summary>", StringComparison.Ordinal)))
                {
                    bare.Add(file);
                }
            }
        }

        None(bare);
    }

    [Fact]
    public void Namespaces_are_those_of_the_folders() => None(SourceTree.Code("src").Concat(SourceTree.Code("tests"))
        .Where(file => Namespace().Match(SourceTree.Text(file)) is { Success: true } found && found.Groups[1].Value != Expected(file)));

    [Fact]
    public void Namespaces_are_file_scoped() => None(SourceTree.Code("src").Concat(SourceTree.Code("tests"))
        .Where(file => SourceTree.Lines(file).Any(line => line.StartsWith("namespace ", StringComparison.Ordinal) && !line.EndsWith(';'))));

    [Fact]
    public void Internal_classes_are_sealed_static_or_abstract() => None(SourceTree.Code("src")
        .Where(file => SourceTree.Lines(file).Any(line => OpenClass().IsMatch(line))));

    [Fact]
    public void Tests_are_named_as_sentences() => None(SourceTree.Code("tests")
        .SelectMany(file => TestName().Matches(SourceTree.Text(file)).Select(match => match.Groups[1].Value).Where(name => name.Split('_').Length < 3).Select(name => $"{file}: {name}")));

    private static void None(IEnumerable<string> offenders)
    {
        var all = offenders.ToList();
        Assert.True(all.Count == 0, string.Join("\n", all));
    }

    private static List<(string Name, bool Public)> Types(string file) => [.. SourceTree.Lines(file)
        .Select(line => (Match: TopLevelType().Match(line), Public: line.StartsWith("public ", StringComparison.Ordinal)))
        .Where(found => found.Match.Success).Select(found => (found.Match.Groups[1].Value, found.Public))];

    private static string Expected(string file) => Path.GetDirectoryName(file)!.Replace('\\', '/').Split('/', 2)[1].Replace('/', '.');

    [GeneratedRegex(@"^(?:\[.*\] )?(?:public|internal)?\s*(?:(?:sealed|static|abstract|readonly|partial|unsafe|ref|file)\s+)*(?:class|record struct|record|struct|interface|enum)\s+(\w+)")]
    private static partial Regex TopLevelType();

    [GeneratedRegex(@"^namespace ([\w.]+);", RegexOptions.Multiline)]
    private static partial Regex Namespace();

    [GeneratedRegex(@"^internal (?:partial |unsafe )*class ")]
    private static partial Regex OpenClass();

    [GeneratedRegex(@"\[(?:Skippable)?(?:Fact|Theory)\](?:\s*\[[^\n]*\])*\s*public (?:async Task|void|Task) (\w+)\(")]
    private static partial Regex TestName();
}
