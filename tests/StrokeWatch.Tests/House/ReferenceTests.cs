using System.Xml.Linq;
using Xunit;

namespace StrokeWatch.Tests.House;

/// <summary>Data moves one way; the table of DEVELOPERS.md, held here beside the compiler.</summary>
public sealed class ReferenceTests
{
    private static readonly Dictionary<string, string[]> May = new()
    {
        ["StrokeWatch.Samples"] = [],
        ["StrokeWatch.Machine"] = ["Samples"],
        ["StrokeWatch.Sensors"] = ["Samples", "Machine"],
        ["StrokeWatch.Measurement"] = ["Samples"],
        ["StrokeWatch.Assessment"] = ["Samples", "Machine", "Measurement"],
        ["StrokeWatch.Outputs"] = ["Samples", "Measurement", "Assessment"],
        ["StrokeWatch"] = ["Samples", "Machine", "Sensors", "Measurement", "Assessment", "Outputs"],
    };

    private static IEnumerable<string> Files => SourceTree.Files.Where(file => file.EndsWith(".csproj", StringComparison.Ordinal));

    public static TheoryData<string> Projects() => [.. Files];

    [Fact]
    public void The_projects_are_those_of_the_table() => Assert.Equal(
        May.Keys.Order(StringComparer.Ordinal),
        Files.Where(file => file.StartsWith("src/", StringComparison.Ordinal)).Select(file => Path.GetFileNameWithoutExtension(file)).Order(StringComparer.Ordinal));

    [Theory]
    [MemberData(nameof(Projects))]
    public void A_project_refers_only_to_those_it_may(string project)
    {
        if (!May.TryGetValue(Path.GetFileNameWithoutExtension(project), out var allowed))
        {
            Assert.StartsWith("tests/", project, StringComparison.Ordinal);
            return;
        }

        var references = XDocument.Parse(SourceTree.Text(project)).Descendants("ProjectReference")
            .Select(reference => Path.GetFileNameWithoutExtension(((string)reference.Attribute("Include")!).Replace('\\', '/'))["StrokeWatch.".Length..]);
        Assert.Empty(references.Except(allowed));
    }

    [Theory]
    [MemberData(nameof(Projects))]
    public void A_project_names_no_versions_and_weakens_no_rule_and_has_its_lock_file(string project)
    {
        var text = SourceTree.Text(project);
        Assert.All(XDocument.Parse(text).Descendants("PackageReference"), package => Assert.Null(package.Attribute("Version")));
        Assert.DoesNotContain("NoWarn", text, StringComparison.Ordinal);
        Assert.DoesNotContain("TreatWarningsAsErrors", text, StringComparison.Ordinal);
        Assert.DoesNotContain("InternalsVisibleTo", text, StringComparison.Ordinal);
        Assert.Contains($"{Path.GetDirectoryName(project)!.Replace('\\', '/')}/packages.lock.json", SourceTree.Files);
    }

    [Theory]
    [InlineData("DisableTransitiveProjectReferences")]
    [InlineData("TreatWarningsAsErrors")]
    [InlineData("GenerateDocumentationFile")]
    [InlineData("ManagePackageVersionsCentrally")]
    [InlineData("RestorePackagesWithLockFile")]
    [InlineData("EnforceCodeStyleInBuild")]
    public void The_compiler_is_told_once_for_all_to_be_strict(string property) =>
        Assert.Contains($"<{property}>true</{property}>", SourceTree.Text("src/Directory.Build.props"), StringComparison.Ordinal);
}
